/**
 * The calendar against the outside.
 *
 * Sources: Inter gravissimas, 24 February 1582, and the rule of the Gregorian calendar after it: a year is a leap year when 4 divides it,
 * unless 100 does and 400 does not. ISO 8601-1:2019: weekdays counted from Monday, week date (5.2.3), durations (5.5.2). Weekdays of days
 * in history: general knowledge, from memory. What adding months does at their ends: the worked examples of the documentation of Temporal
 * (ECMAScript proposal), from memory, and UCUM 2.2, `mo_j`, for the mean month.
 */
import { describe, expect, test } from 'vitest';
import { addSpan, isLeapYear, readDate, weekdayOf, writeDate } from '../../server/src/analysis/calendar/date.ts';
import { daysIn } from '../../server/src/analysis/calendar/month-lengths.ts';
import { formatIsoDuration, parseIsoDuration } from '../../server/src/analysis/calendar/span.ts';

const date = (text: string) => {
  const read = readDate(text);
  if (!read) throw new Error(`no date ${text}`);
  return read;
};

describe('Gregorian calendar', () => {
  test.each([
    [2000, true],
    [2026, false],
    [2028, true],
    [2100, false],
    [2200, false],
    [2300, false],
    [2400, true],
  ])('%i is a leap year: %s', (year, leap) => {
    expect(isLeapYear(year)).toBe(leap);
  });

  test('of 400 years 97 are', () => {
    expect(Array.from({ length: 400 }, (_, i) => 2001 + i).filter(isLeapYear)).toHaveLength(97);
  });

  test('400 years are 146097 days and so 20871 weeks', () => {
    expect(daysIn(4800)).toEqual({ lo: 146_097, hi: 146_097 });
    expect(146_097 / 7).toBe(20_871);
  });

  test('the mean month of UCUM lies between the shortest and the longest, for every number of months', () => {
    for (let months = 1; months <= 120; months++) {
      const { lo, hi } = daysIn(months);
      expect(lo).toBeLessThanOrEqual(months * 30.4375);
      expect(hi).toBeGreaterThanOrEqual(months * 30.4375);
    }
  });
});

describe('weekdays, counted from Monday', () => {
  test.each([
    ['1969-07-20', 7],
    ['1989-11-09', 4],
    ['2000-01-01', 6],
    ['2027-01-01', 5],
    ['2028-02-29', 2],
    ['2100-02-28', 7],
  ])('%s is day %i', (text, weekday) => {
    expect(weekdayOf(date(text))).toBe(weekday);
  });

  test('as the formula of Zeller (Acta Math 1886;9:131-136) gives them, over 400 years', () => {
    let at = date('2000-01-01');
    for (let day = 0; day < 146_097; day += 17) {
      const [year = 0, month = 0, dayOfMonth = 0] = writeDate(at).split('-').map(Number);
      const [m, y] = month < 3 ? [month + 12, year - 1] : [month, year];
      const h =
        (dayOfMonth +
          Math.floor((13 * (m + 1)) / 5) +
          (y % 100) +
          Math.floor((y % 100) / 4) +
          Math.floor(y / 400) +
          5 * Math.floor(y / 100)) %
        7;
      expect(weekdayOf(at)).toBe(((h + 5) % 7) + 1);
      at = addSpan(at, { months: 0, days: 17, seconds: 0 }) ?? at;
    }
  });
});

describe('months are added to the last day that there is', () => {
  test.each([
    ['2027-01-31', 1, '2027-02-28'],
    ['2028-01-31', 1, '2028-02-29'],
    ['2100-01-31', 1, '2100-02-28'],
    ['2027-03-31', 1, '2027-04-30'],
    ['2027-08-31', 6, '2028-02-29'],
    ['2020-02-29', 12, '2021-02-28'],
  ])('%s and %i months: %s', (from, months, reached) => {
    const sum = addSpan(date(from), { months, days: 0, seconds: 0 });
    expect(sum && writeDate(sum)).toBe(reached);
  });
});

describe('durations of ISO 8601', () => {
  test.each([
    ['P4M', { months: 4, days: 0, seconds: 0 }],
    ['P10D', { months: 0, days: 10, seconds: 0 }],
    ['P2W', { months: 0, days: 14, seconds: 0 }],
    ['P1Y6M', { months: 18, days: 0, seconds: 0 }],
    ['P2Y10M15DT10H30M20S', { months: 34, days: 15, seconds: 37_820 }],
    ['PT36H', { months: 0, days: 0, seconds: 129_600 }],
    ['PT0.5S', { months: 0, days: 0, seconds: 0.5 }],
  ])('%s', (text, span) => {
    expect(parseIsoDuration(text)).toEqual(span);
    expect(parseIsoDuration(formatIsoDuration(span))).toEqual(span);
  });
});
