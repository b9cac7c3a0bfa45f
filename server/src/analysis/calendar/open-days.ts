import { type Settings, WEEKDAYS } from '@curette/shared';
import { addDays, type CalendarDate, compareDates, readDate, weekdayOf } from './date.ts';

/** Days on which there are no visits. */
export interface ClosedDays {
  /** 1 is Monday, 7 Sunday (ISO 8601) */
  readonly weekdays: ReadonlySet<number>;
  /** both ends included */
  readonly periods: readonly { readonly from: CalendarDate; readonly to: CalendarDate }[];
}

export function closedDaysOf({ closed }: Settings): ClosedDays {
  return {
    weekdays: new Set(closed.weekdays.map((name) => WEEKDAYS.indexOf(name) + 1)),
    periods: closed.periods.flatMap((period) => {
      const from = readDate(period.from);
      const to = readDate(period.to);
      return from && to ? [{ from, to }] : [];
    }),
  };
}

export function isOpen({ weekdays, periods }: ClosedDays, date: CalendarDate): boolean {
  if (weekdays.has(weekdayOf(date))) return false;
  return !periods.some(({ from, to }) => compareDates(from, date) <= 0 && compareDates(date, to) <= 0);
}

/**
 * The first open day on a date or after it; undefined when there is none up to `to`, or within ten years where that is undefined.
 */
export function firstOpenDay(
  closed: ClosedDays,
  from: CalendarDate,
  to: CalendarDate | undefined,
): CalendarDate | undefined {
  return openDay(closed, from, 1, (date) => to === undefined || compareDates(date, to) <= 0);
}

/** The last open day on a date or before it; undefined when there is none from `from` on. */
export function lastOpenDay(closed: ClosedDays, from: CalendarDate, to: CalendarDate): CalendarDate | undefined {
  return openDay(closed, to, -1, (date) => compareDates(from, date) <= 0);
}

/** How many days from one date to another, both included, are open; undefined for more than ten years. */
export function countOpenDays(closed: ClosedDays, from: CalendarDate, to: CalendarDate): number | undefined {
  let count = 0;
  let tried = 0;
  for (let date: CalendarDate | undefined = from; date && compareDates(date, to) <= 0; date = addDays(date, 1)) {
    if (tried++ >= MOST_TRIED) return undefined;
    if (isOpen(closed, date)) count++;
  }
  return count;
}

/** Days looked at in a row. */
const MOST_TRIED = 3660;

function openDay(
  closed: ClosedDays,
  start: CalendarDate,
  step: 1 | -1,
  within: (date: CalendarDate) => boolean,
): CalendarDate | undefined {
  let date: CalendarDate | undefined = start;
  for (let tried = 0; date && tried < MOST_TRIED && within(date); tried++) {
    if (isOpen(closed, date)) return date;
    date = addDays(date, step);
  }
  return undefined;
}
