import { isCalendar, type Quantity } from '@curette/shared';
import * as Duration from 'temporal-polyfill/fns/Duration';
import { DAY } from '../kinds/seconds.ts';

/** A length of time as a calendar counts it: whole months, then whole days, then time by the clock. None is negative. */
export interface Span {
  readonly months: number;
  readonly days: number;
  /** may be a day or more: `36 h` is by the clock */
  readonly seconds: number;
}

/** From a shortest to a longest span; `hi` is undefined where nothing bounds it. */
export interface SpanRange {
  readonly lo: Span;
  readonly hi: Span | undefined;
}

export type SpanReading =
  | { readonly ok: true; readonly range: SpanRange }
  /** it measures something else */
  | { readonly ok: false; readonly fault: 'not time' }
  /** part of a month has no fixed number of days; `months` is the number as written, in months */
  | { readonly ok: false; readonly fault: 'part of a month'; readonly months: number };

export const NO_TIME: Span = { months: 0, days: 0, seconds: 0 };

/**
 * A written wait or limit as the calendar counts it. Months and years are months; what is written in days, weeks or a declared unit of
 * whole days is in days (a week is 7 d), and what is over by the clock; hours, minutes and seconds are by the clock.
 */
export function spanRangeOf(quantity: Quantity): SpanReading {
  const { range, unit } = quantity;
  const ends = [Math.max(0, range.lo), Math.max(0, range.hi)] as const;
  if (isCalendar(quantity.dimension)) {
    const part = ends.find((end) => Number.isFinite(end) && !isWhole(end));
    return part === undefined
      ? { ok: true, range: rangeOf(ends, monthsSpan) }
      : { ok: false, fault: 'part of a month', months: part };
  }
  if (quantity.dimension.name !== 'time') return { ok: false, fault: 'not time' };
  const byDays = isWhole(unit.factor / DAY);
  return { ok: true, range: rangeOf(ends, byDays ? daysSpan : clockSpan) };
}

/** One span after another. */
export function addSpans(a: Span, b: Span): Span {
  return { months: a.months + b.months, days: a.days + b.days, seconds: a.seconds + b.seconds };
}

/** Whether a span is told by the clock alone: no day or month in it. */
export function isByClock(span: Span): boolean {
  return span.months === 0 && span.days === 0;
}

/**
 * A span as an ISO 8601 duration (ISO 8601-1:2019, 5.5.2): `P4M`, `P10D`, `PT36H`, `P1M2DT30M`. No time at all is `P0D`.
 */
export function formatIsoDuration(span: Span): string {
  if (span.months === 0 && span.days === 0 && span.seconds === 0) return 'P0D';
  const whole = Math.trunc(span.seconds);
  const milliseconds = Math.round((span.seconds - whole) * 1000);
  const hours = Math.trunc(whole / 3600);
  const minutes = Math.trunc((whole % 3600) / 60);
  return Duration.toString(
    Duration.create(0, span.months, 0, span.days, hours, minutes, whole % 60, milliseconds, 0, 0),
  );
}

/** An ISO 8601 duration as a span; undefined when it is none, or is negative. Years are 12 months, weeks 7 days. */
export function parseIsoDuration(text: string): Span | undefined {
  let read: Duration.Record;
  try {
    read = Duration.fromString(text);
  } catch {
    return undefined;
  }
  if (Duration.sign(read) < 0) return undefined;
  const seconds =
    read.hours * 3600 + read.minutes * 60 + read.seconds + read.milliseconds / 1e3 + read.microseconds / 1e6;
  return { months: read.years * 12 + read.months, days: read.weeks * 7 + read.days, seconds };
}

function rangeOf(ends: readonly [number, number], spanOf: (end: number) => Span): SpanRange {
  const [lo, hi] = ends;
  return { lo: spanOf(lo), hi: Number.isFinite(hi) ? spanOf(hi) : undefined };
}

function monthsSpan(months: number): Span {
  return { months: Math.round(months), days: 0, seconds: 0 };
}

function daysSpan(seconds: number): Span {
  const days = isWhole(seconds / DAY) ? Math.round(seconds / DAY) : Math.floor(seconds / DAY);
  return { months: 0, days, seconds: Math.max(0, seconds - days * DAY) };
}

function clockSpan(seconds: number): Span {
  return { months: 0, days: 0, seconds };
}

/** Units multiply in binary: 0.5 a are 6 months up to the last digit. */
function isWhole(value: number): boolean {
  return Math.abs(value - Math.round(value)) <= 1e-9 * Math.max(1, Math.abs(value));
}
