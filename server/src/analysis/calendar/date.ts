import * as Calendar from 'temporal-polyfill/fns/Calendar';
import * as PlainDate from 'temporal-polyfill/fns/PlainDate';
import { DAY } from '../kinds/seconds.ts';
import type { Span } from './span.ts';

/**
 * A date of the Gregorian calendar, without time and without zone, so that no change of the clocks touches it. Sums are those of Temporal
 * (ECMAScript proposal, `Temporal.PlainDate`).
 */
export type CalendarDate = PlainDate.Record;

/** A date as `YYYY-MM-DD` (ISO 8601); undefined for any other text, and for a day that does not exist. */
export function readDate(text: string): CalendarDate | undefined {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return undefined;
  try {
    return PlainDate.fromString(text, () => Calendar.getISO());
  } catch {
    return undefined;
  }
}

/** `YYYY-MM-DD`. */
export function writeDate(date: CalendarDate): string {
  return PlainDate.toString(date);
}

/**
 * The date a span after another: months first, where a month is too short its last day (31 January and a month is 28 or 29 February);
 * then days. What the clock counts comes down to days: `down` for the earliest date it can lead to, `up` for the latest, since nothing
 * says at what time of the day it began.
 * @returns undefined beyond the years that can be counted
 */
export function addSpan(date: CalendarDate, span: Span, clock: 'down' | 'up' = 'down'): CalendarDate | undefined {
  const byClock = span.seconds / DAY;
  const days = span.days + (clock === 'down' ? Math.floor(byClock) : Math.ceil(byClock));
  try {
    const monthsOn = span.months === 0 ? date : PlainDate.addMonths(date, span.months);
    return days === 0 ? monthsOn : PlainDate.addDays(monthsOn, days);
  } catch {
    return undefined;
  }
}

/** @param days may be negative @returns undefined beyond the years that can be counted */
export function addDays(date: CalendarDate, days: number): CalendarDate | undefined {
  try {
    return PlainDate.addDays(date, days);
  } catch {
    return undefined;
  }
}

/** Negative when `a` is before `b`, 0 when they are the same. */
export function compareDates(a: CalendarDate, b: CalendarDate): number {
  return PlainDate.compare(a, b);
}

/** Days from one date to another; negative when it is earlier. */
export function daysBetween(from: CalendarDate, to: CalendarDate): number {
  return PlainDate.diffDays(from, to);
}

/** 1 is Monday, 7 Sunday (ISO 8601). */
export function weekdayOf(date: CalendarDate): number {
  return PlainDate.dayOfWeek(date);
}

export function dateOf(year: number, month: number, day: number): CalendarDate {
  return PlainDate.create(year, month, day);
}

/** Days of a month. */
export function daysInMonth(year: number, month: number): number {
  return PlainDate.daysInMonth(PlainDate.create(year, month, 1));
}

export function isLeapYear(year: number): boolean {
  return PlainDate.inLeapYear(PlainDate.create(year, 1, 1));
}
