import {
  commonDimension,
  countedNoun,
  type Dimension,
  dimension,
  divideDimensions,
  isAbsoluteTemperature,
  multiplyDimensions,
  numberDimension,
} from './dimension.ts';
import { parseUnit, unitsOf } from './parse-unit.ts';
import {
  addRanges,
  divideRanges,
  makeRange,
  maxRange,
  minRange,
  multiplyRanges,
  type Range,
  rangeBetween,
  subtractRanges,
} from './range.ts';
import { bareUnit, countUnit, differenceUnit, type Unit } from './unit.ts';

/** A value or a range of values that measures something. The range is in base units; `unit` is how it is written. */
export interface Quantity {
  readonly dimension: Dimension;
  readonly range: Range;
  readonly unit: Unit;
}

/** Sides of a flat or solid thing, as written: `15 mm by 20 mm`. */
export type Size = readonly Quantity[];

/** What became of a sum. */
export type Computed =
  | {
      readonly ok: true;
      readonly quantity: Quantity;
      /** The divisor's range includes nought: the quotient covers every divisor but that. */
      readonly divisorMayBeZero?: true;
    }
  | {
      readonly ok: false;
      /**
       * `dimensions_differ`: added, subtracted or bounded across dimensions. `thermometer_reading`: a reading was
       * added to a reading, or multiplied. `divided_by_zero`: the divisor is exactly nought.
       */
      readonly reason: 'dimensions_differ' | 'thermometer_reading' | 'divided_by_zero';
      readonly left: Dimension;
      readonly right: Dimension;
    };

/** A bare number. */
export function plainNumber(value: number): Quantity {
  return exactly(value, bareUnit(numberDimension));
}

/** `10 min`. */
export function exactly(value: number, unit: Unit): Quantity {
  const base = toBase(value, unit);
  return { dimension: unit.dimension, range: makeRange(base, base, false, false), unit };
}

/** `10..40 min`; `undefined` when `lo` is above `hi`. */
export function between(lo: number, hi: number, unit: Unit): Quantity | undefined {
  const range = rangeBetween(toBase(lo, unit), toBase(hi, unit));
  return range && { dimension: unit.dimension, range, unit };
}

/** `30 min..2 h`, or any two quantities' ends; `undefined` when they do not compare or stand the wrong way round. */
export function spanning(from: Quantity, to: Quantity): Quantity | undefined {
  const shared = commonDimension(from.dimension, to.dimension);
  const range = shared && rangeBetween(from.range.lo, to.range.hi);
  return shared && range && { dimension: shared, range, unit: from.unit };
}

/** `at least 10 min`: no upper bound. */
export function atLeast(value: number, unit: Unit): Quantity {
  return withRange(exactly(value, unit), makeRange(toBase(value, unit), Number.POSITIVE_INFINITY, false, false));
}

/** `at most 35 N.cm`: no lower bound; see `notNegative`. */
export function atMost(value: number, unit: Unit): Quantity {
  return withRange(exactly(value, unit), makeRange(Number.NEGATIVE_INFINITY, toBase(value, unit), false, false));
}

/** `over 10 min`. */
export function over(value: number, unit: Unit): Quantity {
  return withRange(exactly(value, unit), makeRange(toBase(value, unit), Number.POSITIVE_INFINITY, true, false));
}

/** `under 10 min`. */
export function under(value: number, unit: Unit): Quantity {
  return withRange(exactly(value, unit), makeRange(Number.NEGATIVE_INFINITY, toBase(value, unit), false, true));
}

/** The same with an unbounded lower end raised to nought, for what cannot be less; `undefined` if it is less. */
export function notNegative(q: Quantity): Quantity | undefined {
  const range = q.range.lo >= 0 ? q.range : rangeBetween(0, q.range.hi, false, q.range.openHi === true);
  return range && withRange(q, range);
}

/** A written dilution: `1:100000` as weight in volume is 1 g in 100,000 mL, 10 ug/mL. */
export function dilution(parts: number, whole: number): Quantity | undefined {
  const unit = parseUnit('ug/mL');
  if (!unit.ok || whole <= 0) return undefined;
  return exactly((parts / whole) * 1e6, unit.unit);
}

/** The same range of another quantity. */
export function withRange(q: Quantity, range: Range): Quantity {
  return { dimension: q.dimension, range, unit: q.unit };
}

/** The lower end as a quantity of its own (`soak.shortest`); `undefined` where nothing bounds it. */
export function shortest(q: Quantity): Quantity | undefined {
  return Number.isFinite(q.range.lo) ? withRange(q, makeRange(q.range.lo, q.range.lo, false, false)) : undefined;
}

/** The upper end as a quantity of its own (`soak.longest`); `undefined` where nothing bounds it. */
export function longest(q: Quantity): Quantity | undefined {
  return Number.isFinite(q.range.hi) ? withRange(q, makeRange(q.range.hi, q.range.hi, false, false)) : undefined;
}

/** The same quantity written in another unit; `undefined` when the unit measures something else. */
export function inUnit(q: Quantity, unit: Unit): Quantity | undefined {
  return unit.dimension === q.dimension ? { ...q, unit } : undefined;
}

/** Months and years as days of the clock, by UCUM's mean month of 30.4375 d. Say so wherever the result is shown. */
export function inMeanDays(q: Quantity): Quantity | undefined {
  const days = parseUnit('d');
  if (q.dimension !== dimension('calendar time') || !days.ok) return undefined;
  const { lo, hi, openLo, openHi } = q.range;
  const range = makeRange(lo * meanMonth, hi * meanMonth, openLo === true, openHi === true);
  return { dimension: dimension('time'), range, unit: days.unit };
}

/** A reading of a thermometer taken as a rise or fall: `10 Cel` becomes a difference of 10 degrees. */
export function asDifference(q: Quantity): Quantity {
  if (!isAbsoluteTemperature(q.dimension)) return q;
  const { lo, hi, openLo, openHi } = q.range;
  const range = makeRange(lo - q.unit.offset, hi - q.unit.offset, openLo === true, openHi === true);
  return { dimension: dimension('temperature difference'), range, unit: differenceUnit(q.unit) };
}

/** How many, without the noun: the 2 of `2 cartridges`. Other quantities are answered unchanged. */
export function asNumber(q: Quantity): Quantity {
  const counts = countedNoun(q.dimension) !== undefined || q.dimension === dimension('count');
  return counts ? { dimension: numberDimension, range: q.range, unit: bareUnit(numberDimension) } : q;
}

/**
 * A written quantity as a value of the dimension it is wanted in: a bare number becomes a ratio or a count, a reading
 * becomes a temperature difference, any noun's count is a count. `undefined` when it measures something else.
 */
export function fitTo(q: Quantity, wanted: Dimension): Quantity | undefined {
  if (q.dimension === wanted) return q;
  if (wanted === dimension('temperature difference') && isAbsoluteTemperature(q.dimension)) return asDifference(q);
  const shared = commonDimension(q.dimension, wanted);
  if (shared === undefined) return undefined;
  return shared === q.dimension ? q : { dimension: shared, range: q.range, unit: bareUnit(shared) };
}

/** A value in `unit` as a number of base units. */
export function toBase(value: number, unit: Unit): number {
  return value * unit.factor + unit.offset;
}

/** A number of base units as a value in `unit`. */
export function fromBase(base: number, unit: Unit): number {
  return (base - unit.offset) / unit.factor;
}

export function add(a: Quantity, b: Quantity): Computed {
  if (isAbsoluteTemperature(a.dimension) || isAbsoluteTemperature(b.dimension)) return addToReading(a, b);
  return joined(a, b, addRanges);
}

/** Two readings of a thermometer differ by a temperature difference. */
export function subtract(a: Quantity, b: Quantity): Computed {
  if (isAbsoluteTemperature(a.dimension)) {
    const reading = isAbsoluteTemperature(b.dimension);
    if (!reading && b.dimension !== dimension('temperature difference')) return differ(a, b);
    const unit = reading ? differenceUnit(a.unit) : a.unit;
    return computed(unit.dimension, subtractRanges(a.range, b.range), unit);
  }
  if (isAbsoluteTemperature(b.dimension)) return refuse('thermometer_reading', a, b);
  return joined(a, b, subtractRanges);
}

export function multiply(a: Quantity, b: Quantity): Computed {
  if (isAbsoluteTemperature(a.dimension) || isAbsoluteTemperature(b.dimension)) {
    return refuse('thermometer_reading', a, b);
  }
  const d = multiplyDimensions(a.dimension, b.dimension);
  return computed(d, multiplyRanges(a.range, b.range), resultUnit(d, a.unit, b.unit, '.'));
}

export function divide(a: Quantity, b: Quantity): Computed {
  if (isAbsoluteTemperature(a.dimension) || isAbsoluteTemperature(b.dimension)) {
    return refuse('thermometer_reading', a, b);
  }
  const quotient = divideRanges(a.range, b.range);
  if (quotient === undefined) return refuse('divided_by_zero', a, b);
  const d = divideDimensions(a.dimension, b.dimension);
  const quantity = { dimension: d, range: quotient.range, unit: resultUnit(d, a.unit, b.unit, '/') };
  return quotient.throughZero ? { ok: true, quantity, divisorMayBeZero: true } : { ok: true, quantity };
}

/** The lesser of two quantities, whichever that turns out to be. */
export function least(a: Quantity, b: Quantity): Computed {
  return joined(a, b, minRange);
}

/** The greater of two quantities, whichever that turns out to be. */
export function greatest(a: Quantity, b: Quantity): Computed {
  return joined(a, b, maxRange);
}

/** UCUM 2.2, `mo_j`: a twelfth of the Julian year of 365.25 d, in seconds. */
const meanMonth = (365.25 / 12) * 86400;

function addToReading(a: Quantity, b: Quantity): Computed {
  const [reading, rise] = isAbsoluteTemperature(a.dimension) ? [a, b] : [b, a];
  if (isAbsoluteTemperature(rise.dimension)) return refuse('thermometer_reading', a, b);
  if (rise.dimension !== dimension('temperature difference')) return differ(a, b);
  return computed(reading.dimension, addRanges(reading.range, rise.range), reading.unit);
}

function joined(a: Quantity, b: Quantity, operation: (a: Range, b: Range) => Range): Computed {
  const shared = commonDimension(a.dimension, b.dimension);
  if (shared === undefined) return differ(a, b);
  const unit = a.dimension === shared ? a.unit : b.unit;
  return computed(shared, operation(a.range, b.range), unit);
}

function computed(d: Dimension, range: Range, unit: Unit): Computed {
  return { ok: true, quantity: { dimension: d, range, unit } };
}

function differ(a: Quantity, b: Quantity): Computed {
  return refuse('dimensions_differ', a, b);
}

function refuse(reason: Extract<Computed, { ok: false }>['reason'], a: Quantity, b: Quantity): Computed {
  return { ok: false, reason, left: a.dimension, right: b.dimension };
}

/**
 * The unit to show a product or quotient in: what is left of an operand's unit when a part of it cancels
 * (`mg/kg` by `kg` is `mg`), an operand's own (a ratio of it), the two joined, or the dimension's usual one.
 */
function resultUnit(d: Dimension, a: Unit, b: Unit, sign: '.' | '/'): Unit {
  if (d.powers.length === 0) return bareUnit(d);
  const left = sign === '.' ? [...afterCancelling(a), ...afterCancelling(b)] : divisors(b);
  const cancelled = firstOf(d, left);
  if (cancelled !== undefined) return cancelled;
  if (a.dimension === d) return a;
  if (b.dimension === d && sign === '.') return b;
  const noun = countedNoun(d);
  if (noun !== undefined) return countUnit(noun, `${noun}s`);
  const written = joinedSpelling(a.canonical, b.canonical, sign);
  const usual = unitsOf(d);
  const factor = sign === '.' ? a.factor * b.factor : a.factor / b.factor;
  return (
    usual.find((unit) => unit.canonical === written) ??
    usual[0] ??
    firstOf(d, [written]) ?? { canonical: written, dimension: d, factor, offset: 0 }
  );
}

/** `ug/kg/min` without one of its divisors: `ug/min`, `ug/kg`. */
function afterCancelling(unit: Unit): string[] {
  const [over = '', ...under] = unit.canonical.split('/');
  return under.map((_, i) => [over, ...under.filter((_, j) => j !== i)].join('/'));
}

function divisors(unit: Unit): string[] {
  return unit.canonical.split('/').slice(1);
}

function firstOf(d: Dimension, spellings: readonly string[]): Unit | undefined {
  for (const spelling of spellings) {
    const parsed = parseUnit(spelling);
    if (parsed.ok && parsed.unit.dimension === d) return parsed.unit;
  }
  return undefined;
}

/** `mm` by `mm` is `mm2`, `mm2` by `mm` is `mm3`; otherwise the two stand side by side. */
function joinedSpelling(a: string, b: string, sign: '.' | '/'): string {
  if (sign === '/') return /[./]/.test(b) ? `${a}/(${b})` : `${a}/${b}`;
  if (a === b) return `${a}2`;
  if (a === `${b}2`) return `${b}3`;
  if (b === `${a}2`) return `${a}3`;
  return a.includes('/') ? `${b}.${a}` : `${a}.${b}`;
}
