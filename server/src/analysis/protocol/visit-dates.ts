import type { ProtocolStatement, StatementOf } from '@curette/grammar';
import type { Settings } from '@curette/shared';
import { addSpan, type CalendarDate, daysBetween, readDate, writeDate } from '../calendar/date.ts';
import { addDaysTo, addSpanTo, dateOfMoment, type Moment, readMoment, writeMoment } from '../calendar/moment.ts';
import {
  type ClosedDays,
  closedDaysOf,
  countOpenDays,
  firstOpenDay,
  isOpen,
  lastOpenDay,
} from '../calendar/open-days.ts';
import { addSpans, formatIsoDuration, NO_TIME, type Span, type SpanRange, spanRangeOf } from '../calendar/span.ts';
import type { Module } from '../names/module.ts';
import { visitsInOrder } from './visits-in-order.ts';

/** When the first visit is: a date, or a moment with the zone it is told in. */
export type FirstVisit =
  | { readonly type: 'date'; readonly date: CalendarDate }
  | { readonly type: 'moment'; readonly moment: Moment };

/** Why a visit has no days to choose from, or not those that its window says. */
export type VisitTrouble =
  /** the first visit is on a closed day */
  | 'closed'
  /** every day of the window is closed */
  | 'no open day'
  /** nothing says how long the wait before it is, or it cannot be read */
  | 'not told'
  /** the wait is no whole number of months, and a part of one has no fixed number of days */
  | 'part of a month'
  /** beyond the years that can be counted */
  | 'too far';

/** When a visit can be. Dates are ISO 8601; moments, where the first visit is one, as `readMoment` reads them. */
export interface VisitDates {
  readonly visit: StatementOf<'visit'>;
  /** the wait before it, as ISO 8601 durations; undefined for the first visit, and where nothing is told */
  readonly wait: { readonly shortest: string; readonly longest: string | undefined } | undefined;
  /** what the waits alone come to, from open days of the visit before; `latest` undefined: no end is told */
  readonly window: { readonly earliest: string; readonly latest: string | undefined } | undefined;
  /** the first and the last open day of the window, and how many open days it has; counted up to ten years */
  readonly open:
    | { readonly first: string; readonly last: string | undefined; readonly days: number | undefined }
    | undefined;
  readonly trouble: VisitTrouble | undefined;
}

/** `2027-01-31`, or `2027-01-31T09:00[Area/City]`; undefined for any other text and for a day that does not exist. */
export function readFirstVisit(text: string): FirstVisit | undefined {
  const date = readDate(text);
  if (date) return { type: 'date', date };
  const moment = readMoment(text);
  return moment && { type: 'moment', moment };
}

/**
 * When each visit of a protocol can be, given the first. The earliest day of a visit follows from the earliest of the one before, the
 * latest from the latest, each moved to an open day inside its window: the earliest on, the latest back. Of a window without an open day,
 * which is told, the next visit is counted from the window itself.
 */
export function visitDates(
  module: Module,
  statement: ProtocolStatement,
  first: FirstVisit,
  settings: Settings,
): readonly VisitDates[] {
  const closed = closedDaysOf(settings);
  const start = pointOf(first);
  const rows: VisitDates[] = [];
  let earliest: Point | undefined = start;
  let latest: Point | undefined = start;
  for (const { visit, waits } of visitsInOrder(statement)) {
    if (rows.length === 0) {
      const open = isOpen(closed, start.date);
      const window = { earliest: start.text, latest: start.text };
      rows.push({
        visit,
        wait: undefined,
        window,
        open: open ? { first: start.text, last: start.text, days: 1 } : undefined,
        trouble: open ? undefined : 'closed',
      });
      continue;
    }
    const read = waitBefore(module, waits);
    const wait = read.ok
      ? {
          shortest: formatIsoDuration(read.range.lo),
          longest: read.range.hi && formatIsoDuration(read.range.hi),
        }
      : undefined;
    earliest = earliest?.after(read.ok ? read.range.lo : NO_TIME, 'down');
    const endless = !read.ok || read.range.hi === undefined || latest === undefined;
    const end: Point | undefined = read.ok && read.range.hi ? latest?.after(read.range.hi, 'up') : undefined;
    if (!earliest || (!end && !endless)) {
      earliest = undefined;
      rows.push({ visit, wait, window: undefined, open: undefined, trouble: 'too far' });
      continue;
    }
    latest = end;
    const moved = openIn(closed, earliest, latest);
    rows.push({
      visit,
      wait,
      window: { earliest: earliest.text, latest: latest?.text },
      open: moved && { first: moved.first.text, last: moved.last?.text, days: moved.days },
      trouble: read.ok ? (moved ? undefined : 'no open day') : read.trouble,
    });
    if (moved) [earliest, latest] = [moved.first, moved.last];
  }
  return rows;
}

/** A day on which something can be, with the time on the wall where that is known. */
interface Point {
  readonly date: CalendarDate;
  readonly text: string;
  readonly after: (span: Span, clock: 'down' | 'up') => Point | undefined;
  /** on another date, at the same time on the wall */
  readonly on: (date: CalendarDate) => Point | undefined;
}

function pointOf(first: FirstVisit): Point {
  return first.type === 'date' ? dayPoint(first.date) : momentPoint(first.moment);
}

function dayPoint(date: CalendarDate): Point {
  return {
    date,
    text: writeDate(date),
    after: (span, clock) => {
      const reached = addSpan(date, span, clock);
      return reached && dayPoint(reached);
    },
    on: dayPoint,
  };
}

function momentPoint(moment: Moment): Point {
  return {
    date: dateOfMoment(moment),
    text: writeMoment(moment),
    after: (span) => {
      const reached = addSpanTo(moment, span);
      return reached && momentPoint(reached);
    },
    on: (date) => {
      const moved = addDaysTo(moment, daysBetween(dateOfMoment(moment), date));
      return moved && momentPoint(moved);
    },
  };
}

/** The ends of a window moved to open days; undefined when it has none. */
function openIn(
  closed: ClosedDays,
  earliest: Point,
  latest: Point | undefined,
): { readonly first: Point; readonly last: Point | undefined; readonly days: number | undefined } | undefined {
  const first = firstOpenDay(closed, earliest.date, latest?.date);
  const moved = first && earliest.on(first);
  if (!first || !moved) return undefined;
  if (!latest) return { first: moved, last: undefined, days: undefined };
  const last = lastOpenDay(closed, first, latest.date) ?? first;
  return { first: moved, last: latest.on(last), days: countOpenDays(closed, earliest.date, latest.date) };
}

type WaitReading =
  | { readonly ok: true; readonly range: SpanRange }
  | { readonly ok: false; readonly trouble: 'not told' | 'part of a month' };

function waitBefore(module: Module, waits: readonly StatementOf<'wait'>[]): WaitReading {
  let sum: SpanRange | undefined;
  for (const { duration } of waits) {
    const quantity = duration && module.quantity(duration);
    if (!quantity) return { ok: false, trouble: 'not told' };
    const read = spanRangeOf(quantity);
    if (!read.ok) return { ok: false, trouble: read.fault === 'part of a month' ? read.fault : 'not told' };
    const { lo, hi } = read.range;
    sum = sum ? { lo: addSpans(sum.lo, lo), hi: sum.hi && hi && addSpans(sum.hi, hi) } : read.range;
  }
  return sum ? { ok: true, range: sum } : { ok: false, trouble: 'not told' };
}
