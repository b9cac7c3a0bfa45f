import { DAY } from '../kinds/seconds.ts';
import { dayCounts, daysIn } from './month-lengths.ts';
import type { SpanRange } from './span.ts';

/** Whether after a wait from a weekday some day of its range is open: on every date of that weekday, on some, or on none. */
export type OpenAfter = 'always' | 'sometimes' | 'never';

export const WEEK: readonly number[] = [1, 2, 3, 4, 5, 6, 7];

/**
 * Whether a wait from a weekday leads to an open one, whatever the date. Months are as many days as `dayCounts` says; over 400 years each of
 * these numbers comes from every weekday.
 * @param from 1 is Monday, 7 Sunday (ISO 8601)
 * @param open weekdays, numbered in the same way
 */
export function openAfter(from: number, wait: SpanRange, open: ReadonlySet<number>): OpenAfter {
  const hits = windowsOf(wait).map((window) => openWithin(from, window, open).length > 0);
  return hits.every((hit) => hit) ? 'always' : hits.some((hit) => hit) ? 'sometimes' : 'never';
}

/** The open weekdays that a wait from a weekday can lead to. */
export function openReached(from: number, wait: SpanRange, open: ReadonlySet<number>): readonly number[] {
  return windowsOf(wait).flatMap((window) => openWithin(from, window, open));
}

interface Window {
  /** whole days after the first */
  readonly lo: number;
  /** may be Infinity */
  readonly hi: number;
}

/** The windows of days that a wait can be; what the clock counts reaches from the earliest day to the latest. */
function windowsOf({ lo, hi }: SpanRange): readonly Window[] {
  const early = lo.days + Math.floor(lo.seconds / DAY);
  if (hi === undefined) return [{ lo: early, hi: Number.POSITIVE_INFINITY }];
  const late = hi.days + Math.ceil(hi.seconds / DAY);
  if (hi.months === lo.months) return dayCounts(lo.months).map((days) => ({ lo: days + early, hi: days + late }));
  // At least a month wide: more than a week, however long its months are.
  return [{ lo: daysIn(lo.months).hi + early, hi: daysIn(hi.months).lo + late }];
}

function openWithin(from: number, { lo, hi }: Window, open: ReadonlySet<number>): readonly number[] {
  const found: number[] = [];
  for (let days = lo; days <= Math.min(hi, lo + 6); days++) {
    const weekday = ((from - 1 + days) % 7) + 1;
    if (open.has(weekday)) found.push(weekday);
  }
  return found;
}
