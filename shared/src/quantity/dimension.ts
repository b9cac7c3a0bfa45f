/**
 * What a quantity measures. A dimension is a product of powers of base quantities, kept in one shared object per
 * dimension, so `a === b` (or equal `key`) means "the same dimension".
 *
 * Beyond the physical base quantities there are those that keep apart what physics alone would merge:
 * - `body mass`: the `kg` of `mg/kg`, so that a dose per body mass is not a plain ratio;
 * - `energy`: so that a torque (force × length) is not an energy;
 * - `calendar`: months and years, which have no fixed length in seconds;
 * - one per counted noun (`count:cartridge`), so that cartridges and increments do not compare; a turn is one of them,
 *   so that a rotational speed (`/min`) is not a frequency (`Hz`).
 */
export interface Dimension {
  /** What people call it: `volume`, `dose per body mass`, `volume per time`. */
  readonly name: string;
  /** Identity: equal keys, equal dimensions. */
  readonly key: string;
  readonly powers: readonly Power[];
}

export type Power = readonly [base: BaseQuantity, exponent: number];

export type BaseQuantity =
  | 'length'
  | 'mass'
  | 'body mass'
  | 'time'
  | 'calendar'
  | 'temperature'
  | 'energy'
  | 'angle'
  | 'substance'
  | 'international unit'
  | `count:${string}`;

/** The dimensions the language has a name for. */
export const dimensionNames = [
  'length',
  'area',
  'volume',
  'mass',
  'time',
  'calendar time',
  'torque',
  'force',
  'rotational speed',
  'concentration',
  'dose per body mass',
  'temperature',
  'temperature difference',
  'pressure',
  'ratio',
  'count',
  'angle',
  'frequency',
  'energy',
  'power',
] as const;

export type DimensionName = (typeof dimensionNames)[number];

const interned = new Map<string, Dimension>();
const products = new Map<string, Dimension>();

const named: Record<DimensionName, Dimension> = {
  length: physical('length', [['length', 1]]),
  area: physical('area', [['length', 2]]),
  volume: physical('volume', [['length', 3]]),
  mass: physical('mass', [['mass', 1]]),
  time: physical('time', [['time', 1]]),
  'calendar time': physical('calendar time', [['calendar', 1]]),
  torque: physical('torque', [
    ['mass', 1],
    ['length', 2],
    ['time', -2],
  ]),
  force: physical('force', [
    ['mass', 1],
    ['length', 1],
    ['time', -2],
  ]),
  'rotational speed': physical('rotational speed', [
    ['count:turn', 1],
    ['time', -1],
  ]),
  concentration: physical('concentration', [
    ['mass', 1],
    ['length', -3],
  ]),
  'dose per body mass': physical('dose per body mass', [
    ['mass', 1],
    ['body mass', -1],
  ]),
  temperature: special('temperature', [['temperature', 1]]),
  'temperature difference': physical('temperature difference', [['temperature', 1]]),
  pressure: physical('pressure', [
    ['mass', 1],
    ['length', -1],
    ['time', -2],
  ]),
  ratio: special('ratio', []),
  count: special('count', []),
  angle: physical('angle', [['angle', 1]]),
  frequency: physical('frequency', [['time', -1]]),
  energy: physical('energy', [['energy', 1]]),
  power: physical('power', [
    ['energy', 1],
    ['time', -1],
  ]),
};

const namedByKey: ReadonlyMap<string, string> = new Map(Object.values(named).map((d) => [d.key, d.name]));

/** A bare number without unit: it joins a ratio or a count, and multiplies anything. */
export const numberDimension: Dimension = physical('number', []);

/** The dimension the language calls `name`. */
export function dimension(name: DimensionName): Dimension {
  return named[name];
}

/** The dimension a text names, if it is one of `dimensionNames`. */
export function dimensionNamed(name: string): Dimension | undefined {
  return Object.hasOwn(named, name) ? named[name as DimensionName] : undefined;
}

/** The count of one noun: `countOf('cartridge')` compares with cartridges only. */
export function countOf(noun: string): Dimension {
  return fromPowers([[`count:${noun}`, 1]]);
}

/** The noun a count counts, if the dimension is the count of one. */
export function countedNoun(d: Dimension): string | undefined {
  const [power] = d.powers;
  if (d.powers.length !== 1 || power === undefined || power[1] !== 1) return undefined;
  return power[0].startsWith('count:') ? power[0].slice('count:'.length) : undefined;
}

/** Months and years, which only a calendar turns into days. */
export function isCalendar(d: Dimension): boolean {
  return d === named['calendar time'];
}

/** A reading of a thermometer, as opposed to a rise or fall. */
export function isAbsoluteTemperature(d: Dimension): boolean {
  return d === named.temperature;
}

/**
 * The dimension two quantities share when they are compared, added or bounded by one another; `undefined` when they
 * do not compare. A bare number joins a ratio or a count; a count without a noun joins the count of any noun.
 */
export function commonDimension(a: Dimension, b: Dimension): Dimension | undefined {
  if (a === b) return a;
  if (a === numberDimension && joinsNumber(b)) return b;
  if (b === numberDimension && joinsNumber(a)) return a;
  if (a === named.count && countedNoun(b) !== undefined) return b;
  if (b === named.count && countedNoun(a) !== undefined) return a;
  return undefined;
}

/**
 * The dimension of a product. A dose per body mass meeting a mass takes that mass for the body's:
 * `mg/kg × kg = mg`. Absolute temperatures have no product; callers refuse them first.
 */
export function multiplyDimensions(a: Dimension, b: Dimension): Dimension {
  return combine(a, b, 1);
}

/** The dimension of a quotient; like by like is a ratio. */
export function divideDimensions(a: Dimension, b: Dimension): Dimension {
  return combine(a, b, -1);
}

/** The dimension with exactly these powers; zero powers are dropped and repeated bases are added up. */
export function fromPowers(powers: readonly Power[]): Dimension {
  const sum = new Map<BaseQuantity, number>();
  for (const [base, exponent] of powers) sum.set(base, (sum.get(base) ?? 0) + exponent);
  const clean = [...sum].filter(([, exponent]) => exponent !== 0).sort(([a], [b]) => (a < b ? -1 : 1));
  const key = keyOf(clean);
  const known = interned.get(key);
  if (known !== undefined) return known;
  const made: Dimension = { name: describe(clean), key, powers: clean };
  interned.set(key, made);
  return made;
}

function combine(a: Dimension, b: Dimension, sign: 1 | -1): Dimension {
  const pair = `${a.key}|${sign}|${b.key}`;
  const known = products.get(pair);
  if (known !== undefined) return known;
  const made = combineAfresh(a, b, sign);
  products.set(pair, made);
  return made;
}

function combineAfresh(a: Dimension, b: Dimension, sign: 1 | -1): Dimension {
  if (a.powers.length === 0 && b.powers.length === 0) {
    if (b === numberDimension) return a;
    if (a === numberDimension) return sign === 1 ? b : numberDimension;
    return a === named.count && b === named.count && sign === 1 ? named.count : named.ratio;
  }
  if (b.powers.length === 0) return a;
  const right = b.powers.map(([base, exponent]): Power => [base, exponent * sign]);
  const product = fromPowers(massForBody(a.powers, right));
  return product === numberDimension ? named.ratio : product;
}

/** Adds two lists of powers; a mass that meets a per-body-mass of the other list cancels it. */
function massForBody(left: readonly Power[], right: readonly Power[]): Power[] {
  const powers = [...left, ...right];
  const cancel = (per: readonly Power[], by: readonly Power[]): void => {
    const k = Math.min(Math.max(0, -exponentOf(per, 'body mass')), Math.max(0, exponentOf(by, 'mass')));
    if (k > 0) powers.push(['mass', -k], ['body mass', k]);
  };
  cancel(left, right);
  cancel(right, left);
  const bodyLeft = exponentOf(powers, 'body mass');
  if (bodyLeft > 0 && exponentOf(powers, 'mass') >= 0) powers.push(['body mass', -bodyLeft], ['mass', bodyLeft]);
  return powers;
}

function exponentOf(powers: readonly Power[], base: BaseQuantity): number {
  let sum = 0;
  for (const power of powers) if (power[0] === base) sum += power[1];
  return sum;
}

function joinsNumber(d: Dimension): boolean {
  return d === named.ratio || d === named.count || countedNoun(d) !== undefined;
}

function physical(name: string, powers: readonly Power[]): Dimension {
  const sorted = [...powers].sort(([a], [b]) => (a < b ? -1 : 1));
  const made: Dimension = { name, key: keyOf(sorted), powers: sorted };
  interned.set(made.key, made);
  return made;
}

/** A dimension that arithmetic never arrives at: it is only ever written down. */
function special(name: string, powers: readonly Power[]): Dimension {
  return { name, key: `(${name})`, powers };
}

function keyOf(sorted: readonly Power[]): string {
  return sorted.map(([base, exponent]) => `${base}^${exponent}`).join(' ');
}

/** A name for a dimension nobody named: `volume per time`, `dose per body mass per time`, `energy per area`. */
function describe(powers: readonly Power[]): string {
  const known = nameOfWhole(powers);
  if (known !== undefined) return known;
  const divisors = powers.filter(([base, exponent]) => exponent < 0 && divisorName(base, exponent) !== undefined);
  const without = (divisor: Power): Power[] => powers.filter((power) => power !== divisor);
  const divisor = divisors.find((d) => nameOfWhole(without(d)) !== undefined) ?? divisors[0];
  if (divisor === undefined || powers.length === 1) return powers.map(powerName).join(' × ');
  return `${describe(without(divisor))} per ${divisorName(...divisor)}`;
}

function nameOfWhole(powers: readonly Power[]): string | undefined {
  return namedByKey.get(keyOf(powers)) ?? singleBase(powers);
}

function singleBase(powers: readonly Power[]): string | undefined {
  const [first] = powers;
  if (powers.length !== 1 || first === undefined || first[1] !== 1) return undefined;
  return first[0].startsWith('count:') ? `count of ${plainBase(first[0])}` : first[0];
}

function divisorName(base: BaseQuantity, exponent: number): string | undefined {
  if (exponent === -1) return plainBase(base);
  if (base !== 'length') return undefined;
  return exponent === -2 ? 'area' : exponent === -3 ? 'volume' : undefined;
}

function powerName([base, exponent]: Power): string {
  return exponent === 1 ? plainBase(base) : `${plainBase(base)} to the power ${exponent}`;
}

function plainBase(base: BaseQuantity): string {
  return base.startsWith('count:') ? base.slice('count:'.length) : base;
}
