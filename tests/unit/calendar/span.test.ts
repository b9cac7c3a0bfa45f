/** Written waits and limits as months, days and time by the clock, and their ISO 8601 form. */
import { atLeast, atMost, between, declareUnit, exactly, parseUnit, type Quantity, type Unit } from '@curette/shared';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  addSpans,
  formatIsoDuration,
  parseIsoDuration,
  type Span,
  spanRangeOf,
} from '../../../server/src/analysis/calendar/span.ts';

const unit = (code: string): Unit => {
  const parsed = parseUnit(code);
  if (!parsed.ok) throw new Error(`no unit ${code}`);
  return parsed.unit;
};
const span = (months: number, days: number, seconds = 0): Span => ({ months, days, seconds });
const range = (quantity: Quantity | undefined) => {
  if (!quantity) throw new Error('no quantity');
  const read = spanRangeOf(quantity);
  return read.ok ? [read.range.lo, read.range.hi] : read.fault;
};

describe('what a quantity counts', () => {
  test('months and years are months', () => {
    expect(range(between(4, 6, unit('mo')))).toEqual([span(4, 0), span(6, 0)]);
    expect(range(exactly(2, unit('a')))).toEqual([span(24, 0), span(24, 0)]);
    expect(range(exactly(0.5, unit('a')))).toEqual([span(6, 0), span(6, 0)]);
  });

  test('days and weeks are days, and a part of a day is by the clock', () => {
    expect(range(between(7, 10, unit('d')))).toEqual([span(0, 7), span(0, 10)]);
    expect(range(exactly(2, unit('wk')))).toEqual([span(0, 14), span(0, 14)]);
    expect(range(exactly(1.5, unit('d')))).toEqual([span(0, 1, 43_200), span(0, 1, 43_200)]);
  });

  test('hours and minutes are by the clock, also when they make a day', () => {
    expect(range(exactly(48, unit('h')))).toEqual([span(0, 0, 172_800), span(0, 0, 172_800)]);
    expect(range(exactly(90, unit('min')))).toEqual([span(0, 0, 5400), span(0, 0, 5400)]);
  });

  test('an institution may declare a unit of whole days', () => {
    const fortnight = declareUnit(['fortnight'], exactly(14, unit('d')));
    if (typeof fortnight === 'string') throw new Error(fortnight);
    expect(range(exactly(2, fortnight))).toEqual([span(0, 28), span(0, 28)]);
  });

  test('what is open on a side is open in the span', () => {
    expect(range(atLeast(4, unit('mo')))).toEqual([span(4, 0), undefined]);
    expect(range(atMost(10, unit('d')))).toEqual([span(0, 0), span(0, 10)]);
  });

  test('part of a month is refused: it has no fixed number of days', () => {
    expect(spanRangeOf(exactly(1.5, unit('mo')))).toEqual({ ok: false, fault: 'part of a month', months: 1.5 });
    expect(range(atLeast(0.25, unit('mo')))).toBe('part of a month');
  });

  test('other measures are no time', () => {
    expect(range(exactly(5, unit('mm')))).toBe('not time');
  });
});

describe('ISO 8601 durations', () => {
  test.each([
    [span(4, 0), 'P4M'],
    [span(0, 10), 'P10D'],
    [span(1, 2, 1800), 'P1M2DT30M'],
    [span(0, 0, 129_600), 'PT36H'],
    [span(0, 0, 0.5), 'PT0.5S'],
    [span(0, 0), 'P0D'],
  ])('%o is %s', (value, text) => {
    expect(formatIsoDuration(value)).toBe(text);
    expect(parseIsoDuration(text)).toEqual(value);
  });

  test('years and weeks are read as months and days', () => {
    expect(parseIsoDuration('P1Y2M')).toEqual(span(14, 0));
    expect(parseIsoDuration('P2W')).toEqual(span(0, 14));
  });

  test.each(['', 'P', '4M', 'P4', '-P4M', 'P1.5M', 'P4M ', 'four months'])('"%s" is none', (text) => {
    expect(parseIsoDuration(text)).toBeUndefined();
  });

  test('any span is read back from what it is written as', () => {
    const spans = fc.record({
      months: fc.nat(1200),
      days: fc.nat(3650),
      seconds: fc.nat(10 ** 6),
    });
    fc.assert(
      fc.property(spans, (value) => {
        expect(parseIsoDuration(formatIsoDuration(value))).toEqual(value);
      }),
    );
  });
});

test('one span after another is their sum', () => {
  expect(addSpans(span(1, 2, 3), span(10, 20, 30))).toEqual(span(11, 22, 33));
});
