import {
  addRanges,
  compareRanges,
  coverRanges,
  divideRanges,
  intersectRanges,
  maxRange,
  minRange,
  multiplyRanges,
  type Range,
  rangeBetween,
  subtractRanges,
} from '@curette/shared';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

/** Points a quarter apart from -3 to 3, so that a range of them has an inside even between open ends. */
const quarters = fc.integer({ min: -12, max: 12 }).map((n) => n / 4);

const anyRange: fc.Arbitrary<Range> = fc
  .tuple(quarters, quarters, fc.boolean(), fc.boolean())
  .map(([a, b, openLo, openHi]) => rangeBetween(Math.min(a, b), Math.max(a, b), openLo, openHi))
  .filter((r) => r !== undefined && (r.lo === r.hi || r.hi - r.lo >= 0.5)) as fc.Arbitrary<Range>;

const fine: fc.Arbitrary<Range> = fc
  .tuple(fc.integer({ min: -9999, max: 9999 }), fc.integer({ min: 0, max: 9999 }))
  .map(([lo, width]) => ({ lo: lo / 100, hi: (lo + width) / 100 }));

const operations: [string, (a: Range, b: Range) => Range | undefined, (x: number, y: number) => number][] = [
  ['+', addRanges, (x, y) => x + y],
  ['-', subtractRanges, (x, y) => x - y],
  ['×', multiplyRanges, (x, y) => x * y],
  ['÷', (a, b) => divideRanges(a, b)?.range, (x, y) => x / y],
  ['min', minRange, Math.min],
  ['max', maxRange, Math.max],
];

describe('reckoning with ranges', () => {
  test.each(operations)('%s of any two values lies in the range of the results', (_, ranged, exact) => {
    fc.assert(
      fc.property(anyRange, anyRange, (a, b) => {
        const result = ranged(a, b);
        for (const x of pointsOf(a)) {
          for (const y of pointsOf(b)) {
            if (ranged === operations[3]?.[1] && y === 0) continue;
            expect(result !== undefined && has(result, exact(x, y)), `${x}, ${y}`).toBe(true);
          }
        }
      }),
    );
  });

  const reached = operations.filter(([name]) => name !== '÷');
  test.each(reached)('%s: a closed end is reached by some values, an open one by none', (_, ranged, exact) => {
    fc.assert(
      fc.property(anyRange, anyRange, (a, b) => {
        const result = ranged(a, b);
        if (result === undefined) return;
        const all = pointsOf(a).flatMap((x) => pointsOf(b).map((y) => exact(x, y)));
        expect(all.some((v) => v === result.lo)).toBe(result.openLo !== true);
        expect(all.some((v) => v === result.hi)).toBe(result.openHi !== true);
      }),
    );
  });

  test.each(operations)('%s of narrower ranges lies within that of wider ones', (_, ranged) => {
    fc.assert(
      fc.property(fine, fine, fine, fine, (a, b, c, d) => {
        const narrow = ranged(a, b);
        const wide = ranged(coverRanges(a, c), coverRanges(b, d));
        if (narrow === undefined || wide === undefined) return;
        expect(compareRanges(narrow, 'within', wide)).toBe('always');
      }),
    );
  });

  test('what two ranges share is in both, and what both have is shared', () => {
    fc.assert(
      fc.property(anyRange, anyRange, (a, b) => {
        const shared = intersectRanges(a, b);
        for (const x of [...pointsOf(a), ...pointsOf(b)]) {
          expect(shared !== undefined && has(shared, x)).toBe(has(a, x) && has(b, x));
        }
      }),
    );
  });

  test('numbers that are none, or are beyond all bounds, leave a range open instead of spoiling it', () => {
    const ends = [Number.NaN, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY, 0, -0, 1, -1, 1e308, 5e-324];
    for (const lo of ends) {
      for (const hi of ends) {
        const r = rangeBetween(lo, hi);
        if (r === undefined) continue;
        for (const other of ends.flatMap((e) => rangeBetween(e, 2) ?? [])) {
          for (const [name, ranged] of operations) {
            const result = ranged(r, other);
            if (result === undefined) continue;
            expect(Number.isNaN(result.lo) || Number.isNaN(result.hi), name).toBe(false);
            expect(result.lo, name).toBeLessThanOrEqual(result.hi);
          }
        }
      }
    }
  });

  test('ends the wrong way round, or with nothing between them, make no range', () => {
    expect(rangeBetween(2, 1)).toBeUndefined();
    expect(rangeBetween(1, 1, true)).toBeUndefined();
    expect(rangeBetween(Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY)).toBeUndefined();
    expect(rangeBetween(1, 1)).toEqual({ lo: 1, hi: 1 });
  });
});

function pointsOf(r: Range): number[] {
  const points: number[] = [];
  for (let x = r.lo; x <= r.hi; x += 0.25) if (has(r, x)) points.push(x);
  return points;
}

function has(r: Range, x: number): boolean {
  const low = r.openLo ? x > r.lo : x >= r.lo - 1e-12;
  return low && (r.openHi ? x < r.hi : x <= r.hi + 1e-12);
}
