import {
  commonDimension,
  countedNoun,
  type Dimension,
  dimension,
  isAbsoluteTemperature,
  numberDimension,
} from './dimension.ts';
import { parseUnit } from './parse-unit.ts';
import { makeRange, type Range, rangeBetween } from './range.ts';
import { bareUnit, differenceUnit, type Unit } from './unit.ts';

/** A value or a range of values that measures something. The range is in base units; `unit` is how it is written. */
export interface Quantity {
  readonly dimension: Dimension;
  readonly range: Range;
  readonly unit: Unit;
}

/** Sides of a flat or solid thing, as written: `15 mm by 20 mm`. */
export type Size = readonly Quantity[];

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
  const value = (base - unit.offset) / unit.factor;
  // Taking the offset away leaves the noise of a number hundreds of times as large; nobody reads a thermometer so finely.
  return unit.offset === 0 || !Number.isFinite(value) ? value : Number(value.toFixed(9));
}

/** UCUM 2.2, `mo_j`: a twelfth of the Julian year of 365.25 d, in seconds. */
const meanMonth = (365.25 / 12) * 86400;
