import {
  commonDimension,
  countedNoun,
  type Dimension,
  dimension,
  divideDimensions,
  isAbsoluteTemperature,
  multiplyDimensions,
} from './dimension.ts';
import { parseUnit, unitsOf } from './parse-unit.ts';
import type { Quantity } from './quantity.ts';
import { addRanges, divideRanges, maxRange, minRange, multiplyRanges, type Range, subtractRanges } from './range.ts';
import { bareUnit, countUnit, differenceUnit, type Unit } from './unit.ts';

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
