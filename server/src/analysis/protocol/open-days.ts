import type { ProtocolStatement, StatementOf } from '@curette/grammar';
import { between, formatSource, isCalendar, type Quantity, type Settings } from '@curette/shared';
import { noOpenDay } from '../../problems/no_open_day.ts';
import { type Mend, problemAt, type Report } from '../../problems/problem.ts';
import { closedDaysOf } from '../calendar/open-days.ts';
import { addSpans, NO_TIME, type Span, type SpanRange } from '../calendar/span.ts';
import { openAfter, openReached, WEEK } from '../calendar/weekdays.ts';
import { DAY } from '../kinds/seconds.ts';
import { placeOf } from '../model.ts';
import type { Module } from '../names/module.ts';
import { spanOf } from './course.ts';
import { visitLabel, visitsInOrder } from './visits-in-order.ts';

/**
 * Tells waits after which no day is open for the next visit, whatever date the first visit is on: for some of the weekdays on which the
 * earlier visit can be, or for all. A visit is on an open weekday itself, so a wait is judged from those that the waits before it lead to.
 */
export function checkOpenDays(module: Module, statement: ProtocolStatement, settings: Settings, report: Report): void {
  const closed = closedDaysOf(settings).weekdays;
  if (closed.size === 0) return;
  const open = new Set(WEEK.filter((day) => !closed.has(day)));
  let days: ReadonlySet<number> = open;
  let earlier: StatementOf<'visit'> | undefined;
  for (const { visit, waits } of visitsInOrder(statement)) {
    const wait = waits.at(-1);
    const range = wait && rangeOf(module, waits);
    if (earlier && wait && range) {
      const judged = [...days].map((day) => ({ day, after: openAfter(day, range, open) }));
      const bad = judged.filter(({ after }) => after !== 'always');
      if (bad.length > 0) {
        const place = placeOf(module.id, wait, wait.duration ?? wait.head);
        report(
          problemAt(noOpenDay, place, {
            earlier: visitLabel(earlier),
            later: visitLabel(visit),
            wait: waits.flatMap(({ duration }) => (duration && module.quantity(duration)) || []),
            never: bad.filter(({ after }) => after === 'never').map(({ day }) => day),
            sometimes: bad.filter(({ after }) => after === 'sometimes').map(({ day }) => day),
            always: judged.every(({ after }) => after === 'never'),
            open: [...open],
            closed: [...closed].sort(),
            tries: widened(module, waits, days, open),
          }),
        );
      }
      const reached = new Set([...days].flatMap((day) => openReached(day, range, open)));
      // After a wait that leads nowhere the next one is judged by itself.
      days = reached.size > 0 ? reached : open;
    } else days = open;
    earlier = visit;
  }
}

/** What the waits between two visits come to; undefined when one of them cannot be read or there is none. */
function rangeOf(module: Module, waits: readonly StatementOf<'wait'>[]): SpanRange | undefined {
  let sum: SpanRange = { lo: NO_TIME, hi: NO_TIME };
  for (const { duration } of waits) {
    const quantity = duration && module.quantity(duration);
    const range = quantity && spanOf(quantity);
    if (!range) return undefined;
    sum = plus(sum, range);
  }
  return sum;
}

/** The last wait made as much longer, or as much shorter at its lower end, as it takes for an open day always to fall into it. */
function widened(
  module: Module,
  waits: readonly StatementOf<'wait'>[],
  days: ReadonlySet<number>,
  open: ReadonlySet<number>,
): readonly Mend[] {
  const wait = waits.at(-1);
  const quantity = wait?.duration && module.quantity(wait.duration);
  const before = rangeOf(module, waits.slice(0, -1));
  if (!wait?.duration || !quantity || !before) return [];
  const place = placeOf(module.id, wait, wait.duration);
  const helps = (other: Quantity) => {
    const range = spanOf(other);
    return range !== undefined && [...days].every((day) => openAfter(day, plus(before, range), open) === 'always');
  };
  return [longer(quantity), shorter(quantity)].flatMap((candidates) => {
    const found = candidates.find(helps);
    if (!found) return [];
    const text = formatSource(found);
    return [{ title: `Widen the wait to ${text}`, edits: [{ type: 'replace', place, text }] }];
  });
}

/** A week has every weekday: no wait needs more than six days more. */
const MOST_DAYS = 6;

function longer({ range, unit, dimension }: Quantity): readonly Quantity[] {
  const [step, most] = isCalendar(dimension) ? [1, 1] : [DAY, MOST_DAYS];
  return steps(most).flatMap((count) => ends(range.lo, (Math.ceil(range.hi / step) + count) * step, unit));
}

function shorter({ range, unit, dimension }: Quantity): readonly Quantity[] {
  const [step, most] = isCalendar(dimension) ? [1, 1] : [DAY, MOST_DAYS];
  return steps(most)
    .map((count) => (Math.floor(range.lo / step) - count) * step)
    .filter((lo) => lo > 0)
    .flatMap((lo) => ends(lo, range.hi, unit));
}

function ends(lo: number, hi: number, unit: Quantity['unit']): Quantity[] {
  const range = between(lo / unit.factor, hi / unit.factor, unit);
  return range ? [range] : [];
}

function steps(most: number): readonly number[] {
  return Array.from({ length: most }, (_, i) => i + 1);
}

function plus(a: SpanRange, b: SpanRange): SpanRange {
  const hi: Span | undefined = a.hi && b.hi && addSpans(a.hi, b.hi);
  return { lo: addSpans(a.lo, b.lo), hi };
}
