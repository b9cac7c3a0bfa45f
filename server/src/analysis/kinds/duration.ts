import type { Expr, QuantityNode, Statement, StatementOf, TakesClause, TakesStatement } from '@curette/grammar';
import { dimension, isCalendar, type Quantity } from '@curette/shared';
import { calendarInVisit } from '../../problems/calendar_in_visit.ts';
import { endlessTime } from '../../problems/endless_time.ts';
import { gapInOneSitting } from '../../problems/gap_in_one_sitting.ts';
import { type Edit, type Mend, problemAt, type Report } from '../../problems/problem.ts';
import { usualAsRange } from '../../problems/usual_as_range.ts';
import { usualOutsideRange } from '../../problems/usual_outside_range.ts';
import { wrongMeasure } from '../../problems/wrong_measure.ts';
import { zeroTime } from '../../problems/zero_time.ts';
import { type Duration, placeOf } from '../model.ts';
import type { Module } from '../names/module.ts';
import { readQuantity } from './quantity.ts';

/** `takes 10..40 min usually 20 min`, on a line of its own or at the end of another. */
export type Takes = TakesStatement | TakesClause;

/**
 * How long something takes, in seconds. What is no time by the clock, or cannot be read, is reported and counts as not stated; so is
 * what takes no time, has no longest time, or usually takes another time than it may.
 */
export function readDuration(module: Module, statement: Statement, takes: Takes, report: Report): Duration {
  const { duration: node, usually } = takes;
  const quantity = node && lineTime(module, statement, node, 'takes', report);
  const usual = usually && readUsual(module, statement, node, usually, report);
  if (!node || !quantity) return notStated;
  const duration = durationFrom(quantity);
  const place = placeOf(module.id, statement, node);
  if (!duration.stated) report(problemAt(endlessTime, place, { least: quantity }));
  if (duration.hi === 0) {
    const what = momentary.has(statement.type) ? 'moment' : 'work';
    report(problemAt(zeroTime, place, { what, mends: [withoutTakes(module, statement, takes)] }));
  }
  if (!usually || !usual) return duration;
  const seconds = usual.range.lo;
  if (seconds < duration.lo * (1 - ROUNDING) || seconds > duration.hi * (1 + ROUNDING)) {
    report(
      problemAt(usualOutsideRange, placeOf(module.id, statement, usually), {
        takes: quantity,
        usual,
        node,
        usually,
        place,
        rest: placeOf(module.id, statement, { start: node.end, end: usually.end }),
      }),
    );
    return duration;
  }
  return { ...duration, usual: Math.min(Math.max(seconds, duration.lo), duration.hi) };
}

/** How long a wait inside a visit is; within a range the team decides. */
export function readWait(module: Module, statement: StatementOf<'wait'>, node: QuantityNode, report: Report): Duration {
  const quantity = lineTime(module, statement, node, 'wait', report);
  if (!quantity) return notStated;
  const duration = durationFrom(quantity);
  if (duration.hi === 0) {
    const mend: Mend = {
      title: 'Leave out the wait',
      edits: [{ type: 'remove', file: module.id, statement: statement.id }],
    };
    report(problemAt(zeroTime, placeOf(module.id, statement, node), { what: 'wait', mends: [mend] }));
  }
  return duration;
}

/** A wait between two visits is a time, by the clock or by the calendar, and some time passes. */
export function checkGap(module: Module, statement: StatementOf<'wait'>, node: QuantityNode, report: Report): void {
  const quantity = lacksUnit(node) ? undefined : readQuantity(module, statement, node, report);
  if (!quantity) return;
  const place = placeOf(module.id, statement, node);
  if (quantity.dimension !== dimension('time') && !isCalendar(quantity.dimension))
    report(problemAt(wrongMeasure, place, { what: 'wait', wanted: 'time', found: quantity }));
  else if (quantity.range.hi === 0) report(problemAt(zeroTime, place, { what: 'gap', mends: [] }));
  else if (quantity.dimension === dimension('time') && quantity.range.hi < ONE_SITTING)
    report(problemAt(gapInOneSitting, place, { quantity, units: unitsOf(module, statement, node) }));
}

/** Seconds: nobody goes home and comes back within less. */
const ONE_SITTING = 3600;

/** The units of a quantity, where they are written. */
function unitsOf(module: Module, statement: Statement, { low, high }: QuantityNode) {
  return [low, high].flatMap((measure) =>
    measure?.unit ? [{ text: measure.unit.text, place: placeOf(module.id, statement, measure.unit) }] : [],
  );
}

/** A time by the clock; what is none is reported. */
export function readClockTime(
  module: Module,
  statement: Statement,
  node: QuantityNode,
  what: string,
  report: Report,
): Quantity | undefined {
  const quantity = readQuantity(module, statement, node, report);
  return quantity && clockTime(module, statement, node, what, quantity, report);
}

/** The quantity that an expression amounts to, if it is a time by the clock; what is none is reported. */
export function clockTime(
  module: Module,
  statement: Statement,
  written: Expr,
  what: string,
  quantity: Quantity,
  report: Report,
): Quantity | undefined {
  if (quantity.dimension === dimension('time')) return quantity;
  const place = placeOf(module.id, statement, written);
  if (isCalendar(quantity.dimension)) {
    const units = written.type === 'quantity' ? unitsOf(module, statement, written) : [];
    report(problemAt(calendarInVisit, place, { quantity, units }));
  } else report(problemAt(wrongMeasure, place, { what, wanted: 'time', found: quantity }));
  return undefined;
}

export const notStated: Duration = { lo: 0, hi: Number.POSITIVE_INFINITY, stated: false };

/** Lines that are over in a moment unless they say otherwise. */
const momentary: ReadonlySet<Statement['type']> = new Set(['verify', 'decide', 'record', 'instruct']);

/** Two ways of writing one time differ by no more than this part of it. */
const ROUNDING = 1e-9;

function durationFrom({ range: { lo, hi } }: Quantity): Duration {
  return { lo: Math.max(0, lo), hi, stated: Number.isFinite(hi) };
}

/** A time that a line states by itself: that a number there has no unit is a flaw of the line already. */
function lineTime(
  module: Module,
  statement: Statement,
  node: QuantityNode,
  what: string,
  report: Report,
): Quantity | undefined {
  return lacksUnit(node) ? undefined : readClockTime(module, statement, node, what, report);
}

function lacksUnit({ low, high }: QuantityNode): boolean {
  const last = high ?? low;
  return last !== undefined && last.unit === undefined;
}

/** What something usually takes is one time. */
function readUsual(
  module: Module,
  statement: Statement,
  duration: QuantityNode | undefined,
  node: QuantityNode,
  report: Report,
): Quantity | undefined {
  const usual = lineTime(module, statement, node, 'usually', report);
  if (!usual || usual.range.lo === usual.range.hi) return usual;
  const rest = duration && placeOf(module.id, statement, { start: duration.end, end: node.end });
  report(problemAt(usualAsRange, placeOf(module.id, statement, node), { usual, rest }));
  return undefined;
}

/** Leaves out the line, or the end of it, that says how long it takes. */
export function withoutTakes(module: Module, statement: Statement, takes: Takes): Mend {
  const edit: Edit =
    'type' in takes
      ? { type: 'remove', file: module.id, statement: statement.id }
      : { type: 'replace', place: placeOf(module.id, statement, { start: takes.start - 1, end: takes.end }), text: '' };
  return { title: 'Leave out how long it takes', edits: [edit] };
}
