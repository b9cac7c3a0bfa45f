/** A limit against the waits between visits, on every date on which they can begin. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { addSpan, type CalendarDate, compareDates, readDate } from '../../../server/src/analysis/calendar/date.ts';
import { elapsedAgainst, type Leg } from '../../../server/src/analysis/calendar/elapsed-against.ts';
import type { Span, SpanRange } from '../../../server/src/analysis/calendar/span.ts';

const MINUTE = 60;
const HOUR = 3600;
const mo = (months: number): Span => ({ months, days: 0, seconds: 0 });
const d = (days: number): Span => ({ months: 0, days, seconds: 0 });
const h = (hours: number): Span => ({ months: 0, days: 0, seconds: hours * HOUR });
const nothing = d(0);
const atLeast = (lo: Span): SpanRange => ({ lo, hi: undefined });
const atMost = (hi: Span): SpanRange => ({ lo: nothing, hi });
const wait = (lo: Span, hi: Span = lo): Leg => ({ type: 'wait', lo, hi });
const endless = (lo: Span): Leg => ({ type: 'wait', lo, hi: undefined });
const work = (lo: number, hi: number = lo): Leg => ({ type: 'work', lo, hi });
const soon = (limit: Span, ...legs: Leg[]) => elapsedAgainst(atLeast(limit), legs).tooSoon;
const late = (limit: Span, ...legs: Leg[]) => elapsedAgainst(atMost(limit), legs).tooLate;
const holds = { answer: 'holds' };

describe('months against months', () => {
  test('at least 4 mo holds after a wait of 4..5 mo, on every date', () => {
    expect(soon(mo(4), wait(mo(4), mo(5)))).toEqual(holds);
    expect(late(mo(5), wait(mo(4), mo(5)))).toEqual(holds);
  });

  test('two waits of 2 mo are no 4 mo from the end of December, since February comes between', () => {
    expect(soon(mo(4), wait(mo(2)), wait(mo(2)))).toEqual({
      answer: 'can break',
      from: '2025-12-29',
      reached: '2026-04-28',
      wanted: '2026-04-29',
      days: 1,
    });
  });

  test('and never more than 4 mo', () => {
    expect(late(mo(4), wait(mo(2)), wait(mo(2)))).toEqual(holds);
  });

  test('a shorter wait breaks always, a longer one holds', () => {
    expect(soon(mo(4), wait(mo(1), mo(3)))).toMatchObject({ answer: 'always breaks' });
    expect(soon(mo(4), wait(mo(3), mo(5)))).toMatchObject({ answer: 'can break' });
    expect(late(mo(6), wait(mo(7), mo(8)))).toMatchObject({ answer: 'always breaks' });
    expect(late(mo(6), wait(mo(5), mo(7)))).toMatchObject({ answer: 'can break' });
  });

  test('the minutes of the visits count for nothing beside months', () => {
    expect(late(mo(5), work(20 * MINUTE, 90 * MINUTE), wait(mo(4), mo(5)), work(0, 2 * HOUR))).toEqual(holds);
  });
});

describe('months against days', () => {
  test('30 d are no month from a month of 31 days, 31 d always are', () => {
    expect(soon(mo(1), wait(d(30)))).toMatchObject({ answer: 'can break', from: '2025-01-01', days: 1 });
    expect(soon(mo(1), wait(d(31)))).toEqual(holds);
  });

  test('a month is at least 4 wk, and 29 d only outside February of a common year', () => {
    expect(soon(d(28), wait(mo(1)))).toEqual(holds);
    expect(soon(d(29), wait(mo(1)))).toMatchObject({ answer: 'can break' });
    expect(soon(d(32), wait(mo(1)))).toMatchObject({ answer: 'always breaks' });
  });

  test('a limit that only a century without a leap year breaks is found', () => {
    expect(soon(d(1461), wait(mo(48)))).toMatchObject({
      answer: 'can break',
      from: '2096-02-29',
      reached: '2100-02-28',
    });
  });
});

describe('days and the clock', () => {
  test('7..14 d holds for a wait of 7..14 d, whatever the visits take', () => {
    expect(elapsedAgainst({ lo: d(7), hi: d(14) }, [work(HOUR), wait(d(7), d(14)), work(2 * HOUR)])).toEqual({
      tooSoon: holds,
      tooLate: holds,
    });
  });

  test('a wait of 3 wk is too late for stitches that may stay 14 d', () => {
    expect(late(d(14), wait(d(21)))).toMatchObject({ answer: 'always breaks', days: 7 });
  });

  test('a limit in hours counts the work of the visits', () => {
    expect(late(h(48), wait(d(2)))).toEqual(holds);
    expect(late(h(48), work(0, HOUR), wait(d(2)))).toMatchObject({ answer: 'can break' });
    expect(late(h(48), work(MINUTE, HOUR), wait(d(2)))).toMatchObject({ answer: 'always breaks', days: 0 });
    expect(soon(h(48), work(MINUTE, HOUR), wait(d(2)))).toEqual(holds);
  });

  test('waits in hours are compared by the clock with a limit in days', () => {
    expect(soon(d(2), wait(h(47)))).toMatchObject({ answer: 'always breaks' });
    expect(soon(d(2), wait(h(47)), work(HOUR))).toEqual(holds);
    expect(late(d(2), wait(h(47), h(49)))).toMatchObject({ answer: 'can break' });
  });
});

describe('without end', () => {
  test('what is without end cannot be told to be short enough, but is long enough when its shortest is', () => {
    expect(late(mo(6), endless(mo(4)))).toEqual({ answer: 'not told' });
    expect(late(mo(6), endless(mo(7)))).toMatchObject({ answer: 'always breaks' });
    expect(soon(mo(4), endless(mo(4)))).toEqual(holds);
    expect(soon(mo(4), endless(mo(3)))).toMatchObject({ answer: 'can break' });
  });

  test('a side that asks for nothing holds', () => {
    expect(elapsedAgainst({ lo: nothing, hi: undefined }, [endless(nothing)])).toEqual({
      tooSoon: holds,
      tooLate: holds,
    });
  });

  test('centuries are told by the bounds of their days', () => {
    expect(soon(mo(12 * 200), wait(mo(12 * 200)))).toMatchObject({ answer: 'can break' });
    expect(soon(mo(12 * 200), wait(mo(12 * 199)))).toMatchObject({ answer: 'always breaks' });
    expect(late(mo(12 * 1e6), wait(mo(12 * 1e7)))).toMatchObject({ answer: 'always breaks' });
  });
});

test('it answers as trying every date of 400 years does', () => {
  const every: CalendarDate[] = [];
  for (let at = readDate('2000-01-01'); at && every.length < 146_097; at = addSpan(at, d(1))) every.push(at);
  const spans = fc.record({ months: fc.nat(6), days: fc.nat(65), seconds: fc.constant(0) });
  fc.assert(
    fc.property(spans, fc.array(spans, { minLength: 1, maxLength: 3 }), (limit, waits) => {
      let soonOn = 0;
      let lateOn = 0;
      for (const from of every) {
        let reached: CalendarDate | undefined = from;
        for (const span of waits) reached = reached && addSpan(reached, span);
        const wanted = addSpan(from, limit);
        const order = reached && wanted ? compareDates(reached, wanted) : 0;
        if (order < 0) soonOn++;
        if (order > 0) lateOn++;
      }
      const answer = (on: number) => (on === every.length ? 'always breaks' : on > 0 ? 'can break' : 'holds');
      const legs = waits.map((span) => wait(span));
      expect(soon(limit, ...legs).answer).toBe(limit.months + limit.days === 0 ? 'holds' : answer(soonOn));
      expect(late(limit, ...legs).answer).toBe(answer(lateOn));
    }),
    { numRuns: 12 },
  );
});

test('of close limits as well, where the month ends decide', () => {
  const close = fc.integer({ min: 1, max: 14 }).chain((count) =>
    fc.record({
      limit: fc.constant(mo(count)),
      waits: fc.constantFrom(
        [mo(count - 1), mo(1)],
        [mo(1), mo(count - 1)],
        [d(30), mo(count - 1)],
        [mo(count - 1), d(31)],
      ),
    }),
  );
  const starts: CalendarDate[] = [];
  for (let at = readDate('2095-01-01'); at && starts.length < 366 * 12; at = addSpan(at, d(1))) starts.push(at);
  fc.assert(
    fc.property(close, ({ limit, waits }) => {
      const orders = starts.map((from) => {
        let reached: CalendarDate | undefined = from;
        for (const span of waits) reached = reached && addSpan(reached, span);
        const wanted = addSpan(from, limit);
        return reached && wanted ? compareDates(reached, wanted) : 0;
      });
      const answer = (broken: (order: number) => boolean) =>
        orders.every(broken) ? 'always breaks' : orders.some(broken) ? 'can break' : 'holds';
      expect(soon(limit, ...waits.map((span) => wait(span))).answer).toBe(answer((order) => order < 0));
      expect(late(limit, ...waits.map((span) => wait(span))).answer).toBe(answer((order) => order > 0));
    }),
    { numRuns: 30 },
  );
});
