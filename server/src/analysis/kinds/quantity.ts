import type { Measure, QuantityNode, SizeNode, Statement } from '@curette/grammar';
import {
  atLeast,
  atMost,
  bareUnit,
  between,
  type DeclaredUnits,
  type Dimension,
  dilution,
  dimension,
  exactly,
  isCalendar,
  numberDimension,
  parseUnit,
  type Quantity,
  type RefusedUnit,
  type Size,
  spanning,
  type Unit,
} from '@curette/shared';
import { negativeTime } from '../../problems/negative_time.ts';
import { numberTooLarge } from '../../problems/number_too_large.ts';
import { problemAt, type Report } from '../../problems/problem.ts';
import { reversedRange } from '../../problems/reversed_range.ts';
import { unknownUnit } from '../../problems/unknown_unit.ts';
import { wrongMeasure } from '../../problems/wrong_measure.ts';
import { placeOf } from '../model.ts';
import type { Module } from '../names/module.ts';

/** What became of a written quantity. */
export type QuantityReading =
  | { readonly ok: true; readonly quantity: Quantity }
  /** half typed: already a flaw of the line */
  | { readonly ok: false; readonly fault: 'unfinished' }
  | { readonly ok: false; readonly fault: 'unit'; readonly measure: Measure; readonly refused: RefusedUnit }
  | { readonly ok: false; readonly fault: 'too large'; readonly measure: Measure }
  /** a time below nought */
  | { readonly ok: false; readonly fault: 'negative' }
  | { readonly ok: false; readonly fault: 'reversed'; readonly low: Measure; readonly high: Measure }
  | { readonly ok: false; readonly fault: 'mixed'; readonly wanted: string; readonly found: Quantity };

/** A written quantity as a value with its dimension. */
export function interpretQuantity(node: QuantityNode, units: DeclaredUnits): QuantityReading {
  const { low, high } = node;
  switch (node.form) {
    case 'plain':
    case 'exactly':
      return low ? inUnits(low, units, exactly) : unfinished;
    case 'at least':
      return low ? inUnits(low, units, atLeast) : unfinished;
    case 'at most': {
      const end = high ?? low;
      return end ? inUnits(end, units, atMost) : unfinished;
    }
    case 'ratio': {
      const quantity = low && high && dilution(low.value, high.value);
      return quantity ? { ok: true, quantity } : unfinished;
    }
    case 'range':
      return low && high ? interpretRange(low, high, units) : unfinished;
    default:
      return node.form satisfies never;
  }
}

/** The same, with what is wrong reported at its place. */
export function readQuantity(
  module: Module,
  statement: Statement,
  node: QuantityNode,
  report: Report,
): Quantity | undefined {
  const reading = interpretQuantity(node, module.units());
  if (reading.ok) return reading.quantity;
  const at = (span: { readonly start: number; readonly end: number }) => placeOf(module.id, statement, span);
  switch (reading.fault) {
    case 'unfinished':
      break;
    case 'unit': {
      const place = at(reading.measure.unit ?? node);
      report(
        problemAt(unknownUnit, place, {
          spelling: reading.measure.unit?.text ?? '',
          refused: reading.refused,
          place,
        }),
      );
      break;
    }
    case 'too large':
      report(problemAt(numberTooLarge, at(reading.measure), { value: reading.measure.value }));
      break;
    case 'negative':
      report(problemAt(negativeTime, at(node), { node, place: at(node) }));
      break;
    case 'reversed':
      report(
        problemAt(reversedRange, at(node), {
          low: reading.low,
          high: reading.high,
          lowPlace: at(reading.low),
          highPlace: at(reading.high),
        }),
      );
      break;
    case 'mixed':
      report(
        problemAt(wrongMeasure, at(node), {
          what: 'end of the range',
          wanted: reading.wanted,
          found: reading.found,
        }),
      );
      break;
    default:
      reading satisfies never;
  }
  return undefined;
}

/** The sides of a written size, each a length; undefined when one of them could not be read. */
export function readSize(module: Module, statement: Statement, node: SizeNode, report: Report): Size | undefined {
  const sides = node.sides.map((side) => {
    const quantity = readQuantity(module, statement, side, report);
    if (!quantity || quantity.dimension === dimension('length')) return quantity;
    report(
      problemAt(wrongMeasure, placeOf(module.id, statement, side), {
        what: 'side',
        wanted: 'length',
        found: quantity,
      }),
    );
    return undefined;
  });
  const known = sides.filter((side) => side !== undefined);
  return known.length === sides.length ? known : undefined;
}

const unfinished: QuantityReading = { ok: false, fault: 'unfinished' };

function inUnits(
  measure: Measure,
  units: DeclaredUnits,
  make: (value: number, unit: Unit) => Quantity,
): QuantityReading {
  if (Math.abs(measure.value) > LARGEST) return { ok: false, fault: 'too large', measure };
  if (!measure.unit) return { ok: true, quantity: make(measure.value, bareUnit(numberDimension)) };
  const parsed = parseUnit(measure.unit.text, units);
  if (!parsed.ok) return { ok: false, fault: 'unit', measure, refused: parsed };
  if (measure.value < 0 && isTime(parsed.unit.dimension)) return { ok: false, fault: 'negative' };
  return { ok: true, quantity: make(measure.value, parsed.unit) };
}

/** Beyond this, one more makes no difference to a number as it is kept, and sums are no sums. */
const LARGEST = Number.MAX_SAFE_INTEGER;

function isTime(measured: Dimension): boolean {
  return measured === dimension('time') || isCalendar(measured);
}

function interpretRange(low: Measure, high: Measure, units: DeclaredUnits): QuantityReading {
  const top = inUnits(high, units, exactly);
  if (!top.ok) return top;
  const bottom = inUnits(low.unit ? low : { ...low, unit: high.unit }, units, exactly);
  if (!bottom.ok) return bottom;
  const { unit } = top.quantity;
  const range =
    bottom.quantity.unit === unit ? between(low.value, high.value, unit) : spanning(bottom.quantity, top.quantity);
  if (range) return { ok: true, quantity: range };
  return bottom.quantity.dimension === top.quantity.dimension
    ? { ok: false, fault: 'reversed', low, high }
    : { ok: false, fault: 'mixed', wanted: bottom.quantity.dimension.name, found: top.quantity };
}
