import { dimension, isCalendar, type Quantity } from '@curette/shared';

/** A stretch of time in seconds. */
export interface Seconds {
  readonly lo: number;
  readonly hi: number;
  /** written in months or years, and turned into days by the mean month */
  readonly calendar: boolean;
}

/**
 * A time, by the clock or by the calendar, in seconds; undefined for any other measure. A month is the mean month of 30.4375 d
 * (UCUM 2.2, `mo_j`, a twelfth of a Julian year).
 */
export function secondsOf(quantity: Quantity): Seconds | undefined {
  const { lo, hi } = quantity.range;
  if (quantity.dimension === dimension('time')) return { lo, hi, calendar: false };
  if (isCalendar(quantity.dimension)) return { lo: lo * MEAN_MONTH, hi: hi * MEAN_MONTH, calendar: true };
  return undefined;
}

export const DAY = 86_400;

const MEAN_MONTH = 30.4375 * DAY;
