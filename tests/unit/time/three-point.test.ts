import { describe, expect, test } from 'vitest';
import { meanAndVariance, simulate, type ThreePoint } from '../../../server/src/analysis/time/three-point.ts';

describe('mean and variance', () => {
  test('without a usual length every length is as likely', () => {
    expect(meanAndVariance({ lo: 6, hi: 18 })).toEqual({ mean: 12, variance: 12 });
  });

  test('a length that is known varies by nothing', () => {
    expect(meanAndVariance({ lo: 5, hi: 5, usual: 5 })).toEqual({ mean: 5, variance: 0 });
    expect(meanAndVariance({ lo: 5, hi: 5 })).toEqual({ mean: 5, variance: 0 });
  });
});

describe('what is drawn', () => {
  test('lies between the ends, the usual length at one of them or neither known', () => {
    for (const length of [
      { lo: 10, hi: 40, usual: 10 },
      { lo: 10, hi: 40, usual: 40 },
      { lo: 10, hi: 40, usual: 15 },
      { lo: 10, hi: 40 },
    ])
      for (const value of draws(length, 5000)) {
        expect(value).toBeGreaterThanOrEqual(10);
        expect(value).toBeLessThanOrEqual(40);
      }
  });

  test('is the one length there is', () => {
    expect(new Set(draws({ lo: 7, hi: 7, usual: 7 }, 50))).toEqual(new Set([7]));
  });

  // The distribution functions of beta distributions with whole shapes are polynomials.
  test.each<[string, ThreePoint, (x: number) => number]>([
    ['in the middle', { lo: 0, hi: 1, usual: 1 / 2 }, (x) => 10 * x ** 3 - 15 * x ** 4 + 6 * x ** 5],
    ['at a quarter', { lo: 0, hi: 1, usual: 1 / 4 }, (x) => 1 - (1 - x) ** 5 - 5 * x * (1 - x) ** 4],
    ['at the beginning', { lo: 0, hi: 1, usual: 0 }, (x) => 1 - (1 - x) ** 5],
    ['at the end', { lo: 0, hi: 1, usual: 1 }, (x) => x ** 5],
    ['not known', { lo: 0, hi: 1 }, (x) => x],
  ])('is spread as the beta distribution says, the usual length %s', (_, length, distribution) => {
    // Kolmogorov and Smirnov: in one of a hundred runs the greatest difference is beyond 1.63 / √n.
    const values = draws(length, 20_000).sort((a, b) => a - b);
    const difference = values.map((value, at) =>
      Math.max(Math.abs(distribution(value) - at / 20_000), Math.abs(distribution(value) - (at + 1) / 20_000)),
    );
    expect(Math.max(...difference)).toBeLessThan(1.63 / Math.sqrt(20_000));
  });

  test('has the mean of PERT', () => {
    const values = draws({ lo: 5, hi: 60, usual: 12 }, 50_000);
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    // Four standard errors of the mean; no standard deviation is beyond half the range.
    expect(Math.abs(mean - (5 + 4 * 12 + 60) / 6)).toBeLessThan((4 * 27.5) / Math.sqrt(50_000));
  });
});

describe('a simulation', () => {
  test('plays the same runs for the same seed, others for another', () => {
    const run = (seed: number) =>
      simulate(200, seed, (draw) => draw({ lo: 1, hi: 9, usual: 3 }) + draw({ lo: 0, hi: 2 }));
    expect(run(5)).toEqual(run(5));
    expect(run(5).median).not.toBe(run(6).median);
    expect(run(5)).toMatchObject({ samples: 200, seed: 5 });
  });

  test('tells what half of the runs and nine of ten do not go beyond', () => {
    let next = 0;
    expect(simulate(10, 1, () => ++next)).toEqual({ median: 5, p90: 9, samples: 10, seed: 1 });
    expect(simulate(1, 1, () => 4)).toMatchObject({ median: 4, p90: 4 });
  });

  test('of a length without an end, or with a usual one outside, is refused by name', () => {
    const play = (length: ThreePoint) => () => simulate(1, 1, (draw) => draw(length));
    expect(play({ lo: 5, hi: Number.POSITIVE_INFINITY })).toThrow('5 to Infinity');
    expect(play({ lo: 9, hi: 5 })).toThrow('9 to 5');
    expect(play({ lo: 5, hi: 9, usual: 12 })).toThrow('usually 12');
    expect(() => meanAndVariance({ lo: 5, hi: Number.POSITIVE_INFINITY, usual: 6 })).toThrow(RangeError);
    expect(() => simulate(0, 1, () => 1)).toThrow('0 samples');
  });
});

function draws(length: ThreePoint, count: number): number[] {
  const values: number[] = [];
  simulate(count, 2026, (draw) => {
    const value = draw(length);
    values.push(value);
    return value;
  });
  return values;
}
