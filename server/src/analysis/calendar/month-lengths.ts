import { DAY } from '../kinds/seconds.ts';
import { addSpan, type CalendarDate, dateOf, daysBetween, daysInMonth, isLeapYear } from './date.ts';
import type { Span } from './span.ts';

/** The Gregorian calendar begins again after 400 years: 4800 months, 146097 days. */
const CYCLE_YEARS = 400;
const CYCLE_MONTHS = 12 * CYCLE_YEARS;
const CYCLE_DAYS = 146_097;

/** A year after a leap year: starting dates are named from here on. */
const FIRST_YEAR = 2025;

/**
 * How many days a number of calendar months can be, over every starting date of the Gregorian calendar: 1 mo is 28..31 d, 12 mo 365..366.
 * Found by trying starting dates; exact for whole months. Part of a month is somewhere between the whole months around it, and so are its
 * days. Endless months are endless days.
 */
export function daysIn(months: number): { readonly lo: number; readonly hi: number } {
  if (!Number.isFinite(months)) return { lo: Number.POSITIVE_INFINITY, hi: Number.POSITIVE_INFINITY };
  const counts = dayCounts(Math.floor(Math.max(0, months)));
  const above = dayCounts(Math.ceil(Math.max(0, months)));
  return { lo: Math.min(...counts), hi: Math.max(...above) };
}

/** How many seconds a span can be, over every starting date, with a day as 24 h. */
export function secondsIn({ months, days, seconds }: Span): { readonly lo: number; readonly hi: number } {
  const counted = daysIn(months);
  return { lo: (counted.lo + days) * DAY + seconds, hi: (counted.hi + days) * DAY + seconds };
}

/**
 * Every number of days that a whole number of calendar months can be, in rising order.
 *
 * Within a starting month the days counted stay the same while the day exists in the month that is reached, and from there on fall by one
 * with each day: so its days from the 28th on tell all.
 */
export function dayCounts(months: number): readonly number[] {
  const known = counted.get(months);
  if (known) return known;
  const cycles = Math.floor(months / CYCLE_MONTHS);
  const rest = months % CYCLE_MONTHS;
  const counts = new Set<number>();
  for (const year of yearsThatDiffer(rest))
    for (let month = 1; month <= 12; month++) {
      const last = daysInMonth(year, month);
      for (let day = SHORTEST; day <= last; day++) {
        const date = dateOf(year, month, day);
        const reached = addSpan(date, { months: rest, days: 0, seconds: 0 });
        if (reached) counts.add(daysBetween(date, reached) + cycles * CYCLE_DAYS);
      }
    }
  const sorted = [...counts].sort((a, b) => a - b);
  if (counted.size >= MOST_KEPT) counted.clear();
  counted.set(months, sorted);
  return sorted;
}

/**
 * Every starting date that can matter for what happens within some months: how long months are depends on which years are leap years, and
 * of starting years after which the same years are leap years one stands for all.
 * @param of `month ends` where nothing but months is added: the 28th then stands for the days before it, which every month has
 */
export function* startingDates(months: number, of: 'all days' | 'month ends'): Generator<CalendarDate> {
  for (const year of yearsThatDiffer(months))
    for (let month = 1; month <= 12; month++) {
      const last = daysInMonth(year, month);
      for (let day = of === 'all days' ? 1 : SHORTEST; day <= last; day++) yield dateOf(year, month, day);
    }
}

/** A date to name where one is as good as another. */
export function anyDate(): CalendarDate {
  return dateOf(FIRST_YEAR, 1, 1);
}

const counted = new Map<number, readonly number[]>();

const MOST_KEPT = 256;

/** Every month has so many days. */
const SHORTEST = 28;

/** Starting years that differ in which of the years after them are leap years; of each sort the first. */
function yearsThatDiffer(months: number): readonly number[] {
  // From late in the starting year on.
  const reach = Math.min(CYCLE_YEARS, Math.ceil(months / 12) + 1);
  const first = new Map<string, number>();
  for (let year = FIRST_YEAR; year < FIRST_YEAR + CYCLE_YEARS; year++) {
    let pattern = '';
    for (let ahead = 0; ahead < reach; ahead++) pattern += leap(year + ahead) ? 'L' : '-';
    if (!first.has(pattern)) first.set(pattern, year);
  }
  return [...first.values()];
}

/** Leap years repeat with the calendar's cycle. */
function leap(year: number): boolean {
  const place = (((year - FIRST_YEAR) % CYCLE_YEARS) + CYCLE_YEARS) % CYCLE_YEARS;
  leaps ??= Array.from({ length: CYCLE_YEARS }, (_, i) => isLeapYear(FIRST_YEAR + i));
  return leaps[place] ?? false;
}

let leaps: readonly boolean[] | undefined;
