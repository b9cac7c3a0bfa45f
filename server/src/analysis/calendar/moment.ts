import * as Calendar from 'temporal-polyfill/fns/Calendar';
import * as Duration from 'temporal-polyfill/fns/Duration';
import * as ZonedDateTime from 'temporal-polyfill/fns/ZonedDateTime';
import type { CalendarDate } from './date.ts';
import type { Span } from './span.ts';

/** A moment with the zone it is told in, whose clocks may change (`Temporal.ZonedDateTime`). */
export type Moment = ZonedDateTime.Record;

/**
 * A moment as `2027-03-27T09:00[Area/City]`, with or without an offset before the zone (RFC 9557). Undefined for any other text, for a
 * zone that is not known, and for an offset that the zone does not have then.
 */
export function readMoment(text: string): Moment | undefined {
  if (!/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}/.test(text)) return undefined;
  try {
    return ZonedDateTime.fromString(text, () => Calendar.getISO());
  } catch {
    return undefined;
  }
}

/** Read back by `readMoment`; to the minute where nothing finer is in it. */
export function writeMoment(moment: Moment): string {
  return ZonedDateTime.toString(moment).replace(/:00(?=[+-]\d{2}:\d{2}\[)/, '');
}

/**
 * The moment a span after another. Months and days keep the time on the wall, and a time that the clocks skip that day is moved past the
 * gap; hours, minutes and seconds pass by the clock.
 * @returns undefined beyond the years that can be counted
 */
export function addSpanTo(moment: Moment, span: Span): Moment | undefined {
  const whole = Math.trunc(span.seconds);
  const milliseconds = Math.round((span.seconds - whole) * 1000);
  try {
    return ZonedDateTime.add(moment, Duration.create(0, span.months, 0, span.days, 0, 0, whole, milliseconds, 0, 0));
  } catch {
    return undefined;
  }
}

/** The same time on the wall some days later, or earlier where `days` is negative; moved past a gap as `addSpanTo` does. */
export function addDaysTo(moment: Moment, days: number): Moment | undefined {
  try {
    return ZonedDateTime.addDays(moment, days);
  } catch {
    return undefined;
  }
}

/** The date on the wall. */
export function dateOfMoment(moment: Moment): CalendarDate {
  return ZonedDateTime.toPlainDate(moment);
}

/** Seconds from one moment to another; negative when it is earlier. */
export function secondsBetween(from: Moment, to: Moment): number {
  return (to.epochMilliseconds - from.epochMilliseconds) / 1000;
}
