/** Open days around a date, and weekdays from which a wait leads to one. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  addSpan,
  type CalendarDate,
  readDate,
  weekdayOf,
  writeDate,
} from '../../../server/src/analysis/calendar/date.ts';
import {
  closedDaysOf,
  countOpenDays,
  firstOpenDay,
  isOpen,
  lastOpenDay,
} from '../../../server/src/analysis/calendar/open-days.ts';
import type { Span } from '../../../server/src/analysis/calendar/span.ts';
import { openAfter, openReached, WEEK } from '../../../server/src/analysis/calendar/weekdays.ts';

const date = (text: string): CalendarDate => {
  const read = readDate(text);
  if (!read) throw new Error(`no date ${text}`);
  return read;
};
const closed = closedDaysOf({
  closed: {
    weekdays: ['saturday', 'sunday'],
    periods: [
      { from: '2027-01-01', to: '2027-01-01' },
      { from: '2027-12-24', to: '2028-01-02' },
    ],
  },
});
const first = (from: string, to?: string) => {
  const found = firstOpenDay(closed, date(from), to === undefined ? undefined : date(to));
  return found && writeDate(found);
};
const last = (from: string, to: string) => {
  const found = lastOpenDay(closed, date(from), date(to));
  return found && writeDate(found);
};

describe('open days', () => {
  test.each([
    ['2026-12-31', true],
    ['2027-01-01', false],
    ['2027-01-02', false],
    ['2027-01-03', false],
    ['2027-01-04', true],
    ['2027-12-23', true],
    ['2027-12-24', false],
    ['2028-01-02', false],
    ['2028-01-03', true],
  ])('%s: %s', (text, open) => {
    expect(isOpen(closed, date(text))).toBe(open);
  });

  test('the first on a date or after it', () => {
    expect(first('2027-01-04')).toBe('2027-01-04');
    expect(first('2027-01-01')).toBe('2027-01-04');
    expect(first('2027-12-24')).toBe('2028-01-03');
    expect(first('2027-12-24', '2028-01-02')).toBeUndefined();
    expect(first('2027-12-24', '2028-01-03')).toBe('2028-01-03');
  });

  test('the last on a date or before it', () => {
    expect(last('2027-01-01', '2027-01-10')).toBe('2027-01-08');
    expect(last('2027-12-20', '2028-01-02')).toBe('2027-12-23');
    expect(last('2027-12-24', '2028-01-02')).toBeUndefined();
  });

  test('how many there are', () => {
    expect(countOpenDays(closed, date('2027-01-04'), date('2027-01-10'))).toBe(5);
    expect(countOpenDays(closed, date('2027-12-24'), date('2028-01-02'))).toBe(0);
    expect(countOpenDays(closed, date('2027-01-01'), date('2047-01-01'))).toBeUndefined();
  });

  test('where all is closed for longer than anybody looks ahead, there is none', () => {
    const always = closedDaysOf({ closed: { weekdays: [], periods: [{ from: '2027-01-01', to: '9999-12-31' }] } });
    expect(firstOpenDay(always, date('2027-01-01'), undefined)).toBeUndefined();
  });
});

describe('weekdays after a wait', () => {
  const workdays = new Set([1, 2, 3, 4, 5]);
  const days = (lo: number, hi: number = lo) => ({ lo: span(0, lo), hi: span(0, hi) });
  const span = (months: number, count: number, seconds = 0): Span => ({ months, days: count, seconds });
  const from = (range: { lo: Span; hi: Span | undefined }, open: ReadonlySet<number> = workdays) =>
    WEEK.map((day) => openAfter(day, range, open)).join(' ');

  test('2 d lead from Thursday and Friday into the weekend', () => {
    expect(from(days(2))).toBe('always always always never never always always');
  });

  test('weeks lead from a weekday to the same', () => {
    expect([...workdays].map((day) => openAfter(day, days(14), workdays))).toEqual(Array(5).fill('always'));
    expect(openReached(3, days(14), workdays)).toEqual([3]);
  });

  test('a window of a week always has an open day, however few there are', () => {
    expect(from(days(10, 16), new Set([3]))).toBe(Array(7).fill('always').join(' '));
    expect(from(days(10, 15), new Set([3]))).toContain('never');
  });

  test('without end there is always one', () => {
    expect(from({ lo: span(0, 2), hi: undefined }, new Set([3]))).toBe(Array(7).fill('always').join(' '));
  });

  test('hours lead to the same day or to the next', () => {
    expect(from({ lo: span(0, 0, 3600), hi: span(0, 0, 7200) })).toBe(
      'always always always always always never always',
    );
    expect(from({ lo: span(0, 0, 172_800), hi: span(0, 0, 172_800) })).toBe(from(days(2)));
  });

  test('one month leads from Monday and Tuesday to an open day on every date', () => {
    expect(from({ lo: span(1, 0), hi: span(1, 0) })).toBe(
      'always always sometimes sometimes sometimes sometimes sometimes',
    );
  });

  test('a wait from one number of months to another has an open day on every date', () => {
    expect(from({ lo: span(4, 0), hi: span(5, 0) }, new Set([3]))).toBe(Array(7).fill('always').join(' '));
  });

  test('it answers as looking at every date of 400 years does', () => {
    const every: CalendarDate[] = [];
    for (let at: CalendarDate | undefined = date('2000-01-01'); at && every.length < 146_097; ) {
      every.push(at);
      at = addSpan(at, span(0, 1));
    }
    const opens = fc.uniqueArray(fc.constantFrom(...WEEK), { minLength: 1, maxLength: 6 });
    const waits = fc.tuple(fc.nat(14), fc.nat(9), fc.nat(3));
    fc.assert(
      fc.property(opens, waits, (weekdays, [months, lo, more]) => {
        const open = new Set(weekdays);
        const range = { lo: span(months, lo), hi: span(months, lo + more) };
        const seen = WEEK.map(() => ({ hit: 0, all: 0 }));
        for (const at of every) {
          const early = addSpan(at, range.lo);
          const count = seen[weekdayOf(at) - 1];
          if (!early || !count) throw new Error('no date');
          const weekday = weekdayOf(early);
          count.all++;
          for (let ahead = 0; ahead <= more; ahead++)
            if (open.has(((weekday - 1 + ahead) % 7) + 1)) {
              count.hit++;
              break;
            }
        }
        expect(from(range, open)).toBe(
          seen.map(({ hit, all }) => (hit === all ? 'always' : hit > 0 ? 'sometimes' : 'never')).join(' '),
        );
      }),
      { numRuns: 12 },
    );
  });
});
