import { type Dimension, type DimensionName, dimension, fromPowers } from './dimension.ts';

/**
 * One unit the language knows, by its UCUM code. Its value in base units is `mantissa × 10^exponent`; whole powers of
 * ten are kept apart so that a chain of prefixes stays exact.
 *
 * Source of codes and factors: The Unified Code for Units of Measure, version 2.2, 2024-06-17 (case-sensitive form).
 */
interface Atom {
  readonly code: string;
  readonly dimension: Dimension;
  readonly mantissa: number;
  readonly exponent: number;
  /** The prefixes the language accepts on it: those in use at the chair, not all that UCUM allows. */
  readonly prefixes: readonly Prefix[];
  /** A thermometer scale: the base value of its zero. It stands alone, never in a product. */
  readonly offset?: number;
}

type Prefix = keyof typeof prefixExponents;

/** UCUM prefixes as powers of ten. */
const prefixExponents = { n: -9, u: -6, m: -3, c: -2, d: -1, h: 2, k: 3, M: 6 } as const;

/** Base units: mm, mg, s, month, kelvin, degree of arc, joule, mole, international unit, one turn. */
const atoms: readonly Atom[] = [
  atom('m', 'length', 1, 3, ['n', 'u', 'm', 'c', 'd']),
  atom('[in_i]', 'length', 254, -1),
  // Catheter gauge (French, Charrière): a third of a millimetre.
  atom('[Ch]', 'length', 1 / 3, 0),
  atom('g', 'mass', 1, 3, ['n', 'u', 'm', 'k']),
  atom('[lb_av]', 'mass', 45359237, -2),
  atom('[oz_av]', 'mass', 28349523125, -6),
  atom('L', 'volume', 1, 6, ['u', 'm', 'c', 'd']),
  atom('s', 'time', 1, 0, ['m', 'u']),
  atom('min', 'time', 60, 0),
  atom('h', 'time', 3600, 0),
  atom('d', 'time', 86400, 0),
  atom('wk', 'time', 604800, 0),
  atom('mo', 'calendar time', 1, 0),
  atom('a', 'calendar time', 12, 0),
  atom('N', 'force', 1, 9, ['m', 'c', 'k']),
  atom('Pa', 'pressure', 1, 3, ['h', 'k', 'M']),
  atom('bar', 'pressure', 1, 8, ['m']),
  atom('m[Hg]', 'pressure', 133322, 3, ['m', 'c']),
  atom('[psi]', 'pressure', 6894757293168, -6),
  { ...atom('Cel', 'temperature', 1, 0), offset: 273.15 },
  { ...atom('[degF]', 'temperature', 5 / 9, 0), offset: 459.67 * (5 / 9) },
  atom('%', 'ratio', 1, -2),
  atom('g%', 'concentration', 1, -2),
  atom('deg', 'angle', 1, 0),
  atom('Hz', 'frequency', 1, 0, ['k', 'M']),
  atom('J', 'energy', 1, 0, ['m', 'k']),
  atom('W', 'power', 1, 0, ['m', 'k']),
  derived('mol', 'substance', ['m', 'u', 'n']),
  derived('[iU]', 'international unit', ['k', 'm']),
];

/** One unit with its prefix, if it has one: `mm`, `um`, `mL`. */
export type SimpleUnit = Omit<Atom, 'prefixes' | 'offset'> & { readonly offset: number };

/** Every single unit the language knows, by its code. */
export const simpleUnits: ReadonlyMap<string, SimpleUnit> = withPrefixes(atoms);

/** What stands for one turn in a rotational speed: `/min` is `{rev}/min`. */
export const turn = fromPowers([['count:turn', 1]]);

/** How a unit is written for people where the code would puzzle them. */
export const labels: Readonly<Record<string, { readonly one: string; readonly many: string }>> = {
  '/min': same('rpm'),
  um: same('µm'),
  ug: same('mcg'),
  uL: same('µL'),
  '[in_i]': { one: 'inch', many: 'inches' },
  '[Ch]': same('Fr'),
  '[lb_av]': same('lb'),
  '[oz_av]': same('oz'),
  Cel: same('°C'),
  '[degF]': same('°F'),
  deg: same('°'),
  'mm[Hg]': same('mmHg'),
  'cm[Hg]': same('cmHg'),
  '[psi]': same('psi'),
  '[iU]': same('IU'),
  d: { one: 'day', many: 'days' },
  wk: { one: 'week', many: 'weeks' },
  mo: { one: 'month', many: 'months' },
  a: { one: 'year', many: 'years' },
  'g%': same('g/100 mL'),
};

/**
 * Units to consider, by dimension, when a number was right and its unit slipped, and for completion; the most usual
 * first. The first is also the unit in which a computed quantity of that dimension is shown.
 */
export const usualUnits: Readonly<Record<DimensionName, readonly string[]>> = {
  length: ['mm', 'cm', 'um', 'nm', '[in_i]'],
  area: ['mm2', 'cm2', 'um2'],
  volume: ['mL', 'uL', 'L', 'mm3', 'cm3', 'dL'],
  mass: ['mg', 'g', 'ug', 'kg', 'ng', '[lb_av]'],
  time: ['min', 's', 'h', 'd', 'wk', 'ms'],
  'calendar time': ['mo', 'a'],
  torque: ['N.cm', 'N.mm', 'N.m'],
  force: ['N', 'cN', 'mN', 'kN'],
  'rotational speed': ['/min', '/s', '/h'],
  concentration: ['mg/mL', 'ug/mL', 'g/mL', 'g/L', 'mg/L', 'ng/mL', 'g%'],
  'dose per body mass': ['mg/kg', 'ug/kg', 'g/kg', 'ng/kg', 'mg/[lb_av]'],
  temperature: ['Cel', '[degF]'],
  'temperature difference': ['Cel', '[degF]'],
  pressure: ['bar', 'kPa', 'mm[Hg]', 'Pa', 'MPa', 'hPa', 'mbar', '[psi]'],
  ratio: ['%'],
  count: [],
  angle: ['deg'],
  frequency: ['Hz', 'kHz', 'MHz'],
  energy: ['J', 'mJ', 'kJ'],
  power: ['W', 'mW', 'kW'],
};

function withPrefixes(table: readonly Atom[]): Map<string, SimpleUnit> {
  const all = new Map<string, SimpleUnit>();
  for (const { code, dimension: d, mantissa, exponent, prefixes, offset = 0 } of table) {
    // Mercury's column is only ever read in millimetres or centimetres, metres only inside a torque or an area.
    if (code !== 'm[Hg]') all.set(code, { code, dimension: d, mantissa, exponent, offset });
    for (const prefix of prefixes) {
      const prefixed = prefix + code;
      all.set(prefixed, {
        code: prefixed,
        dimension: d,
        mantissa,
        exponent: exponent + prefixExponents[prefix],
        offset,
      });
    }
  }
  return all;
}

function atom(
  code: string,
  name: DimensionName,
  mantissa: number,
  exponent: number,
  prefixes: readonly Prefix[] = [],
): Atom {
  return { code, dimension: dimension(name), mantissa, exponent, prefixes };
}

function derived(code: string, base: 'substance' | 'international unit', prefixes: readonly Prefix[]): Atom {
  return { code, dimension: fromPowers([[base, 1]]), mantissa: 1, exponent: 0, prefixes };
}

function same(label: string): { one: string; many: string } {
  return { one: label, many: label };
}
