/**
 * Units against the outside.
 * Source: The Unified Code for Units of Measure (UCUM), version 2.2, 2024-06-17, case-sensitive form, as carried by its
 * reference library `@lhncbc/ucum-lhc`.
 */
import {
  add,
  asDifference,
  compare,
  dilution,
  dimension,
  dimensionNames,
  exactly,
  formatQuantity,
  fromBase,
  inMeanDays,
  isCalendar,
  parseUnit,
  toBase,
  type Unit,
  unitCodes,
  unitsOf,
} from '@curette/shared';
import ucum from '@lhncbc/ucum-lhc';
import { describe, expect, test } from 'vitest';

const reference = ucum.UcumLhcUtils.getInstance();

const compounds = [
  ...dimensionNames.flatMap((name) => unitsOf(dimension(name)).map((unit) => unit.canonical)),
  'mL/min',
  'L/min',
  'mL/h',
  'mg/h',
  'ug/min',
  'mg/kg/h',
  'ug/kg/min',
  'mg/(kg.h)',
  'mL/kg',
  'mL/kg/h',
  'mmol/L',
  'umol/mL',
  '[iU]/mL',
  'k[iU]/L',
  '[iU]/kg',
  'J/cm2',
  'mJ/mm2',
  'N/mm2',
  'kg/m2',
  'mg/g',
  'mm/s',
  'cm/min',
  'm2',
  'cm3/h',
];

const codes = [...new Set([...unitCodes(), ...compounds])];

describe('every unit the language writes', () => {
  test.each(codes)('%s is a valid UCUM code and is read back as itself', (code) => {
    expect(reference.validateUnitString(code)).toMatchObject({ status: 'valid', ucumCode: code });
    expect(parseUnit(code === 'm' ? 'm2' : code)).toMatchObject({ ok: true, canonical: code === 'm' ? 'm2' : code });
  });

  test('all units of one dimension convert into each other as UCUM converts them', () => {
    let pairs = 0;
    for (const [from, to] of pairsOf(knownUnits())) {
      if (from.dimension !== to.dimension) continue;
      // UCUM's arbitrary units convert into nothing; the reference library refuses even one prefix for another.
      if (from.canonical.includes('[iU]')) continue;
      const converted = reference.convertUnitTo(from.canonical, 7.3, to.canonical);
      expect(converted, `${from.canonical} to ${to.canonical}`).toMatchObject({ status: 'succeeded' });
      const ours = fromBase(toBase(7.3, from), to);
      const times = ours / (converted.toVal ?? Number.NaN);
      expect(Math.abs(times - 1), `${from.canonical} to ${to.canonical}: ${ours}, ${converted.toVal}`).toBeLessThan(
        1e-9,
      );
      pairs++;
    }
    expect(pairs).toBeGreaterThan(300);
  });

  test('what UCUM converts and the language keeps apart is this and no more', () => {
    const apart = new Set<string>();
    for (const [from, to] of pairsOf(knownUnits())) {
      if (from.dimension === to.dimension) continue;
      if (reference.convertUnitTo(from.canonical, 7.3, to.canonical).status !== 'succeeded') continue;
      apart.add([from.dimension.name, to.dimension.name].sort().join(' | '));
    }
    expect([...apart].sort()).toEqual([
      'calendar time | time',
      'dose per body mass per time | frequency',
      'dose per body mass per time | rotational speed',
      'dose per body mass | ratio',
      'energy | torque',
      'frequency | rotational speed',
    ]);
  });
});

describe('spellings that look like another unit (UCUM 2.2, case-sensitive form)', () => {
  const traps: [written: string, readsAs: string | null, meant: string][] = [
    ['C', 'coulomb', 'Cel'],
    ['F', 'farad', '[degF]'],
    ['K', 'degree Kelvin', 'Cel'],
    ['H', 'henry', 'h'],
    ['m', 'meter', 'min'],
    ['u', 'unified atomic mass unit', '[iU]'],
    ['U', 'enzyme unit', '[iU]'],
    ['S', 'siemens', 's'],
    ['G', 'Gauss', 'g'],
    ['B', 'bel', 'bar'],
    ['b', 'barn', 'bar'],
    ['MG', 'megaGauss', 'mg'],
    ['mG', 'milliGauss', 'mg'],
    ['Mg', 'megagram', 'mg'],
    ['ML', 'megaLiters', 'mL'],
    ['Ml', 'megaLiters', 'mL'],
    ['Mm', 'megameter', 'mm'],
    ['Kg', null, 'kg'],
    ['KG', null, 'kg'],
    ['MM', null, 'mm'],
    ['Cm', null, 'cm'],
    ['M', null, 'min'],
    ['D', null, 'd'],
    ['Min', null, 'min'],
    ['MO', null, 'mo'],
    ['NCM', null, 'N.cm'],
    ['nCm', null, 'N.cm'],
    ['y', null, 'a'],
    ['w', null, 'wk'],
  ];

  test.each(traps)('"%s" (UCUM: %s) is refused, and "%s" offered with what the letters stand for', (...trap) => {
    const [written, readsAs, meant] = trap;
    const read = reference.validateUnitString(written);
    expect(read.status).toBe(readsAs === null ? 'invalid' : 'valid');
    if (readsAs !== null) expect(read.unit?.name).toBe(readsAs);
    const refused = parseUnit(written);
    expect(refused).toMatchObject({ ok: false, reason: 'look_alike' });
    if (refused.ok) return;
    expect(refused.suggestions[0]).toBe(meant);
    expect(refused.explanation).toMatch(readsAs === null ? /is no unit/ : /stands for/);
  });

  test.each([
    ['MG/ML', 'mg/mL'],
    ['Mg/kg', 'mg/kg'],
    ['mg/Kg', 'mg/kg'],
    ['mL/H', 'mL/h'],
    ['mL/m', 'mL/min'],
  ])('a trap inside "%s" is refused too, and "%s" offered', (written, meant) => {
    const refused = parseUnit(written);
    expect(refused).toMatchObject({ ok: false, reason: 'look_alike' });
    if (!refused.ok) expect(refused.suggestions).toContain(meant);
  });

  test.each([
    ['cc', 'mL'],
    ['Ncm', 'N.cm'],
    ['rpm', '/min'],
    ['mcg', 'ug'],
    ['mmHg', 'mm[Hg]'],
    ['lb', '[lb_av]'],
    ['mm^2', 'mm2'],
    ['µm', 'um'],
    ['μg/mL', 'ug/mL'],
  ])('"%s" is no UCUM code; it is understood as everyday speech and written "%s"', (written, code) => {
    expect(reference.validateUnitString(written).status).not.toBe('valid');
    expect(parseUnit(written)).toMatchObject({ ok: true, everyday: true, canonical: code });
  });

  test.each(['mwk', 'kmo', '{cartridge}', '{rpm}', 'mmm', 'mg//mL', 'mg/', '.mg', 'mg mL', 'mg/(kg', '10*3'])(
    '"%s" is refused',
    (written) => {
      expect(parseUnit(written).ok).toBe(false);
    },
  );

  test('"/" does not group: mg/kg.h is (mg/kg).h', () => {
    const read = [unit('mg/kg.h'), unit('mg/(kg.h)'), unit('mg/kg/h')] as const;
    expect(read[0].dimension).not.toBe(read[1].dimension);
    expect(read[1].dimension).toBe(read[2].dimension);
    expect(reference.convertUnitTo('mg/kg.h', 1, 'mg/(kg.h)').status).toBe('failed');
    expect(reference.convertUnitTo('mg/(kg.h)', 1, 'mg/kg/h').toVal).toBeCloseTo(1);
  });
});

describe('conversions worked out beforehand (computed from UCUM 2.2 factors)', () => {
  const worked: [value: number, from: string, inOther: number, to: string][] = [
    [20, 'mg/mL', 2, 'g%'],
    [10, 'ug/mL', 0.01, 'mg/mL'],
    [250, 'um', 0.25, 'mm'],
    [1000, 'um', 1, 'mm'],
    [35, 'N.cm', 0.35, 'N.m'],
    [35, 'N.cm', 350, 'N.mm'],
    [121, 'Cel', 249.8, '[degF]'],
    [132, 'Cel', 269.6, '[degF]'],
    [134, 'Cel', 273.2, '[degF]'],
    [150, '[lb_av]', 68.0388555, 'kg'],
    [3.2, 'mg/[lb_av]', 7.05479, 'mg/kg'],
    [800, '/min', 13.33333, '/s'],
    [2, 'wk', 14, 'd'],
    [1, 'a', 12, 'mo'],
    [1, 'mL', 1, 'cm3'],
    [1, 'bar', 100, 'kPa'],
    [30, '[Ch]', 10, 'mm'],
  ];

  test.each(worked)('%d %s is %d %s', (value, from, inOther, to) => {
    expect(unit(from).dimension).toBe(unit(to).dimension);
    const ours = fromBase(toBase(value, unit(from)), unit(to));
    expect(ours / inOther).toBeCloseTo(1, 5);
    const theirs = reference.convertUnitTo(from, value, to).toVal ?? Number.NaN;
    expect(ours / theirs).toBeCloseTo(1, 9);
  });

  test('a rise of 10 Cel is a rise of 18 [degF], not of 50', () => {
    const rise = asDifference(exactly(10, unit('Cel')));
    expect(compare(rise, '=', asDifference(exactly(18, unit('[degF]'))))).toBe('always');
    expect(compare(rise, '=', asDifference(exactly(50, unit('[degF]'))))).toBe('never');
  });

  test('37 Cel and a rise of 10.1 Cel are 47.1 Cel', () => {
    const heated = add(exactly(37, unit('Cel')), asDifference(exactly(10.1, unit('Cel'))));
    expect(heated.ok && formatQuantity(heated.quantity)).toBe('47.1 °C');
  });

  test('1:100000 is 10 ug/mL and 1:50000 is 20 ug/mL', () => {
    for (const [whole, weight] of [
      [100_000, 10],
      [50_000, 20],
    ] as const) {
      const diluted = dilution(1, whole);
      expect(diluted && compare(diluted, '=', exactly(weight, unit('ug/mL')))).toBe('always');
    }
  });

  test('a mean month is 30.4375 d, and is used only when asked for', () => {
    expect(isCalendar(unit('mo').dimension)).toBe(true);
    expect(compare(exactly(3, unit('mo')), '>=', exactly(12, unit('wk')))).toBe('incomparable');
    const days = inMeanDays(exactly(3, unit('mo')));
    expect(days && fromBase(days.range.lo, unit('d'))).toBeCloseTo(91.3125, 9);
    expect(reference.convertUnitTo('mo', 3, 'd').toVal).toBeCloseTo(91.3125, 9);
  });

  test('by mean months 26 wk fall short of 6 mo', () => {
    const sixMonths = inMeanDays(exactly(6, unit('mo')));
    expect(sixMonths && compare(exactly(26, unit('wk')), '>=', sixMonths)).toBe('never');
  });

  test('800 /min is not 13.3 Hz: how often a thing turns is kept apart from a frequency', () => {
    expect(compare(exactly(800, unit('/min')), '>', exactly(1, unit('Hz')))).toBe('incomparable');
  });
});

function unit(spelling: string): Unit {
  const parsed = parseUnit(spelling);
  if (!parsed.ok) throw new Error(`no unit: ${spelling}`);
  return parsed.unit;
}

function knownUnits(): Unit[] {
  return codes.filter((code) => code !== 'm').map(unit);
}

function* pairsOf(units: readonly Unit[]): Generator<[Unit, Unit]> {
  for (const from of units) for (const to of units) if (from !== to) yield [from, to];
}
