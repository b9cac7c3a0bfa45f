/**
 * The trade's everyday spellings of a unit and the code each stands for. They are understood wherever they are
 * unmistakable; the formatter writes the code. Compounds are read part by part, so only single units stand here.
 */
export const everydaySpellings: ReadonlyMap<string, string> = new Map(
  Object.entries({
    um: 'micron microns µm μm micrometre micrometres micrometer micrometers',
    mm: 'mms millimetre millimetres millimeter millimeters',
    cm: 'cms centimetre centimetres centimeter centimeters',
    '[in_i]': 'in inch inches',
    '[Ch]': 'Fr Ch French french',
    ug: 'mcg mcgs µg μg microgram micrograms',
    mg: 'mgs milligram milligrams',
    g: 'gm gms gram grams',
    kg: 'kgs kilo kilos kilogram kilograms',
    '[lb_av]': 'lb lbs pound pounds',
    '[oz_av]': 'oz ounce ounces',
    uL: 'ul µL μL µl μl microlitre microlitres microliter microliters',
    mL: 'ml mls mLs cc ccs millilitre millilitres milliliter milliliters',
    cL: 'cl',
    dL: 'dl',
    L: 'l litre litres liter liters',
    ms: 'msec msecs',
    s: 'sec secs second seconds',
    min: 'mins minute minutes',
    h: 'hr hrs hour hours',
    d: 'day days',
    wk: 'wks week weeks',
    mo: 'mos month months',
    a: 'yr yrs year years',
    'N.cm': 'Ncm N-cm',
    'N.mm': 'Nmm N-mm',
    'N.m': 'Nm N-m',
    '/min': 'rpm RPM r/min rev/min revs/min {rev}/min 1/min min-1',
    '/s': '{rev}/s 1/s s-1',
    'mm[Hg]': 'mmHg',
    'cm[Hg]': 'cmHg',
    '[psi]': 'psi',
    kPa: 'kpa',
    bar: 'bars',
    Cel: '°C ℃ degC celsius Celsius',
    '[degF]': '°F ℉ degF fahrenheit Fahrenheit',
    '%': 'percent',
    deg: '° degree degrees',
    Hz: 'hz hertz',
    '[iU]': 'IU iU',
    mol: 'mole moles',
    J: 'joule joules',
    W: 'watt watts',
  }).flatMap(([code, spellings]) => spellings.split(' ').map((spelling): [string, string] => [spelling, code])),
);

/** Said beside an everyday spelling that is known to be misread. */
export const everydayNotes: ReadonlyMap<string, string> = new Map([
  ['cc', '"cc" is read as a nought or a "u" when written by hand; "mL" is not'],
  ['µg', '"µg" has been misread as "mg"; the code is "ug"'],
  ['μg', '"μg" has been misread as "mg"; the code is "ug"'],
]);

/** A spelling that means something else than it seems to. */
export interface LookAlike {
  /** What the spelling stands for in the code of units (UCUM, case-sensitive form). */
  readonly reads: string;
  /** What was probably meant, most likely first. */
  readonly suggestions: readonly string[];
}

/**
 * Spellings that are refused because what they stand for is not what a surgeon means by them.
 * Source of the readings: UCUM 2.2, 2024-06-17.
 */
export const lookAlikes: ReadonlyMap<string, LookAlike> = new Map(
  Object.entries({
    MG: { reads: 'the megagauss, a magnetic field', suggestions: ['mg'] },
    Mg: { reads: 'the megagram, a tonne', suggestions: ['mg'] },
    mG: { reads: 'the milligauss, a magnetic field', suggestions: ['mg'] },
    ML: { reads: 'the megalitre, a million litres', suggestions: ['mL'] },
    Ml: { reads: 'the megalitre, a million litres', suggestions: ['mL'] },
    Mm: { reads: 'the megametre, a thousand kilometres', suggestions: ['mm'] },
    MM: { reads: 'nothing', suggestions: ['mm'] },
    Cm: { reads: 'nothing', suggestions: ['cm'] },
    CM: { reads: 'nothing', suggestions: ['cm'] },
    KG: { reads: 'nothing', suggestions: ['kg'] },
    Kg: { reads: 'nothing', suggestions: ['kg'] },
    G: { reads: 'the gauss, a magnetic field', suggestions: ['g'] },
    H: { reads: 'the henry, an inductance', suggestions: ['h'] },
    m: { reads: 'the metre', suggestions: ['min', 'mo', 'mm'] },
    M: { reads: 'nothing', suggestions: ['min', 'mo', 'mm'] },
    K: { reads: 'the kelvin', suggestions: ['Cel', 'kg'] },
    C: { reads: 'the coulomb, an electric charge', suggestions: ['Cel'] },
    F: { reads: 'the farad, an electric capacity', suggestions: ['[degF]'] },
    S: { reads: 'the siemens, an electric conductance', suggestions: ['s'] },
    D: { reads: 'nothing', suggestions: ['d'] },
    u: { reads: 'the mass of an atom', suggestions: ['[iU]', 'um', 'ug'] },
    U: { reads: 'a unit of enzyme activity', suggestions: ['[iU]'] },
    B: { reads: 'the bel, a level of sound', suggestions: ['bar'] },
    b: { reads: 'the barn, a cross-section of nuclei', suggestions: ['bar'] },
    y: { reads: 'nothing', suggestions: ['a'] },
    Y: { reads: 'nothing', suggestions: ['a'] },
    w: { reads: 'nothing', suggestions: ['wk'] },
    Min: { reads: 'nothing', suggestions: ['min'] },
    MIN: { reads: 'nothing', suggestions: ['min'] },
    MO: { reads: 'nothing', suggestions: ['mo'] },
    nCm: { reads: 'nothing', suggestions: ['N.cm'] },
    ncm: { reads: 'nothing', suggestions: ['N.cm'] },
    NCM: { reads: 'nothing', suggestions: ['N.cm'] },
    NCm: { reads: 'nothing', suggestions: ['N.cm'] },
    'N.CM': { reads: 'nothing', suggestions: ['N.cm'] },
  }),
);
