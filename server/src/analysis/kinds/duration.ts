import type { QuantityNode, Statement } from '@curette/grammar';
import { dimension, isCalendar, type Quantity } from '@curette/shared';
import { problemAt, type Report } from '../../problems/problem.ts';
import { wrongMeasure } from '../../problems/wrong_measure.ts';
import { type Duration, placeOf } from '../model.ts';
import type { Module } from '../names/module.ts';
import { readQuantity } from './quantity.ts';

/** `takes 10..40 min usually 20 min`, on a line of its own or at the end of another. */
export interface Takes {
  readonly duration: QuantityNode | undefined;
  readonly usually: QuantityNode | undefined;
}

/**
 * How long something takes, in seconds. Calendar months, other dimensions and unreadable values are reported and count as not
 * stated.
 */
export function readDuration(module: Module, statement: Statement, takes: Takes, report: Report): Duration {
  const { duration, usually } = takes;
  const quantity = duration && readTime(module, statement, duration, 'takes', report);
  const usual = usually && readTime(module, statement, usually, 'usually', report);
  if (!quantity) return notStated;
  const { lo, hi } = quantity.range;
  const span = { lo: Math.max(0, lo), hi, stated: Number.isFinite(hi) };
  return usual ? { ...span, usual: usual.range.lo } : span;
}

export const notStated: Duration = { lo: 0, hi: Number.POSITIVE_INFINITY, stated: false };

/** A time by the clock; what is none is reported. */
function readTime(
  module: Module,
  statement: Statement,
  node: QuantityNode,
  what: 'takes' | 'usually',
  report: Report,
): Quantity | undefined {
  const quantity = readQuantity(module, statement, node, report);
  if (!quantity || quantity.dimension === dimension('time')) return quantity;
  report(
    problemAt(wrongMeasure, placeOf(module.id, statement, node), {
      what: statement.type === 'wait' ? 'wait' : what,
      wanted: 'time',
      found: quantity,
      calendar: isCalendar(quantity.dimension),
    }),
  );
  return undefined;
}
