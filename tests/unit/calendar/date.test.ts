/** Sums of dates: month ends, leap years, what the clock counts, and that no change of the clocks touches a date. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  addSpan,
  compareDates,
  daysBetween,
  readDate,
  weekdayOf,
  writeDate,
} from '../../../server/src/analysis/calendar/date.ts';
import { dayCounts, daysIn } from '../../../server/src/analysis/calendar/month-lengths.ts';
import type { Span } from '../../../server/src/analysis/calendar/span.ts';

const date = (text: string) => {
  const read = readDate(text);
  if (!read) throw new Error(`no date ${text}`);
  return read;
};
const months = (count: number): Span => ({ months: count, days: 0, seconds: 0 });
const reach = (from: string, span: Partial<Span>, clock?: 'down' | 'up') => {
  const reached = addSpan(date(from), { months: 0, days: 0, seconds: 0, ...span }, clock);
  return reached && writeDate(reached);
};

describe('dates', () => {
  test.each(['2027-02-29', '2100-02-29', '2027-13-01', '2027-1-1', '27-01-01', '2027-01-01T00:00', '', 'tomorrow'])(
    '"%s" is none',
    (text) => expect(readDate(text)).toBeUndefined(),
  );

  test('29 February is one in a leap year', () => {
    expect(['2028-02-29', '2400-02-29'].map((text) => writeDate(date(text)))).toEqual(['2028-02-29', '2400-02-29']);
  });
});

describe('a span after a date', () => {
  test.each([
    ['2027-01-31', 1, '2027-02-28'],
    ['2028-01-31', 1, '2028-02-29'],
    ['2100-01-31', 1, '2100-02-28'],
    ['2027-08-31', 6, '2028-02-29'],
    ['2026-08-31', 6, '2027-02-28'],
    ['2028-02-29', 12, '2029-02-28'],
    ['2028-02-29', 48, '2032-02-29'],
    ['2096-02-29', 48, '2100-02-28'],
    ['2027-11-30', 3, '2028-02-29'],
    ['2027-12-15', 1, '2028-01-15'],
  ])('%s and %i months is %s', (from, count, reached) => {
    expect(reach(from, { months: count })).toBe(reached);
  });

  test('months come before days', () => {
    expect(reach('2027-01-31', { months: 1, days: 1 })).toBe('2027-03-01');
  });

  test('a day more is the next date, over a leap day and over the new year', () => {
    expect(reach('2028-02-28', { days: 1 })).toBe('2028-02-29');
    expect(reach('2027-02-28', { days: 1 })).toBe('2027-03-01');
    expect(reach('2027-12-31', { days: 1 })).toBe('2028-01-01');
  });

  test('hours lead to the earliest and to the latest date they can lead to', () => {
    expect([
      reach('2027-03-01', { seconds: 6 * 3600 }, 'down'),
      reach('2027-03-01', { seconds: 6 * 3600 }, 'up'),
    ]).toEqual(['2027-03-01', '2027-03-02']);
    expect([
      reach('2027-03-01', { seconds: 172_800 }, 'down'),
      reach('2027-03-01', { seconds: 172_800 }, 'up'),
    ]).toEqual(['2027-03-03', '2027-03-03']);
  });

  test('on the nights on which clocks change a date is a day like any other', () => {
    for (const from of ['2027-03-27', '2027-10-30']) {
      const next = date(reach(from, { days: 1 }) ?? '');
      expect(daysBetween(date(from), next)).toBe(1);
      expect(daysBetween(date(from), date(reach(from, { days: 2 }) ?? ''))).toBe(2);
    }
  });

  test('further than years can be counted there is none', () => {
    expect(reach('2027-01-01', { months: 12 * 300_000 })).toBeUndefined();
    expect(reach('2027-01-01', { days: 1e12 })).toBeUndefined();
  });

  const dates = fc.integer({ min: 0, max: 146_096 }).map((days) => addSpan(date('2000-01-01'), { ...months(0), days }));
  const spans = fc.record({ months: fc.nat(60), days: fc.nat(400), seconds: fc.constant(0) });

  test('a later start is never reached earlier', () => {
    fc.assert(
      fc.property(dates, dates, spans, (a, b, span) => {
        if (!a || !b) return;
        const [first, second] = compareDates(a, b) <= 0 ? [a, b] : [b, a];
        const [x, y] = [addSpan(first, span), addSpan(second, span)];
        expect(x && y && compareDates(x, y)).toBeLessThanOrEqual(0);
      }),
    );
  });

  test('a longer span never leads to an earlier date', () => {
    fc.assert(
      fc.property(dates, spans, fc.nat(3), fc.nat(40), (from, span, more, days) => {
        if (!from) return;
        const x = addSpan(from, span);
        const y = addSpan(from, { ...span, months: span.months + more, days: span.days + days });
        expect(x && y && compareDates(x, y)).toBeLessThanOrEqual(0);
      }),
    );
  });

  test('the weekday goes on with the days', () => {
    fc.assert(
      fc.property(dates, fc.nat(1000), (from, days) => {
        const reached = from && addSpan(from, { months: 0, days, seconds: 0 });
        expect(reached && weekdayOf(reached)).toBe(from && ((weekdayOf(from) - 1 + days) % 7) + 1);
      }),
    );
  });
});

describe('days in a number of months', () => {
  test.each([
    [0, 0, 0],
    [1, 28, 31],
    [2, 59, 62],
    [3, 89, 92],
    [6, 181, 184],
    [12, 365, 366],
    [24, 730, 731],
    [48, 1460, 1461],
  ])('%i months are %i to %i days', (count, lo, hi) => {
    expect(daysIn(count)).toEqual({ lo, hi });
  });

  test('part of a month is between the whole months around it', () => {
    expect(daysIn(1.5)).toEqual({ lo: 28, hi: 62 });
    expect(daysIn(0.5)).toEqual({ lo: 0, hi: 31 });
  });

  test('400 years are 146097 days on every date', () => {
    expect(daysIn(4800)).toEqual({ lo: 146_097, hi: 146_097 });
    expect(daysIn(4801)).toEqual({ lo: 146_125, hi: 146_128 });
  });

  test('endless months are endless days, and less than none are none', () => {
    expect(daysIn(Number.POSITIVE_INFINITY).lo).toBe(Number.POSITIVE_INFINITY);
    expect(daysIn(-1)).toEqual({ lo: 0, hi: 0 });
  });

  test('no date is outside, and each number of days is met: every date of 400 years is tried', () => {
    for (const count of [1, 2, 5, 12, 13, 37]) {
      const met = new Set<number>();
      let from = date('2000-01-01');
      for (let day = 0; day < 146_097; day++) {
        const reached = addSpan(from, months(count));
        if (reached) met.add(daysBetween(from, reached));
        from = addSpan(from, { months: 0, days: 1, seconds: 0 }) ?? from;
      }
      expect([...met].sort((a, b) => a - b)).toEqual(dayCounts(count));
    }
  });

  test('any date keeps within the bounds', () => {
    const starts = fc.integer({ min: 0, max: 146_096 });
    fc.assert(
      fc.property(starts, fc.nat(240), (day, count) => {
        const from = addSpan(date('2000-01-01'), { months: 0, days: day, seconds: 0 });
        const reached = from && addSpan(from, months(count));
        const days = from && reached && daysBetween(from, reached);
        expect(dayCounts(count)).toContain(days);
      }),
    );
  });
});
