/**
 * What a socket holds, as the library's comment on it says, against closed forms and against numeric integration.
 * Closed forms: half an ellipsoid is 2/3 of pi times its three half-axes, a straight elliptic shaft pi times two half-axes times its
 * depth, an elliptic cone a third of that.
 */
import { describe, expect, test } from 'vitest';
import { declared } from './library-values.ts';

/** Share of opening times depth that is open, for a socket whose both half-widths shrink with depth as `shape` says (0 to 1). */
function integrated(shape: (depth: number) => number): number {
  // Simpson's rule over the area of the ellipse at each depth; opening and depth are 1, so half-axes are 1/2.
  const steps = 10_000;
  let sum = 0;
  for (let i = 0; i <= steps; i++) {
    const area = (Math.PI / 4) * shape(i / steps) ** 2;
    sum += area * (i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2);
  }
  return sum / (3 * steps);
}

const SHAPES = [
  ['half an ellipsoid', (depth: number) => Math.sqrt(Math.max(0, 1 - depth ** 2)), Math.PI / 6],
  ['a straight shaft', () => 1, Math.PI / 4],
  ['a cone', (depth: number) => 1 - depth, Math.PI / 12],
] as const;

describe.each(SHAPES)('%s', (_, shape, closed) => {
  test('integrates to its closed form', () => {
    expect(integrated(shape)).toBeCloseTo(closed, 6);
  });
});

test('the comment on a socket says the first two', () => {
  const { doc } = declared('std/oral', 'kind socket');
  const [half, shaft] = [/half an ellipsoid of these holds ([\d.]+) times/i, /straight shaft ([\d.]+) times/i].map(
    (words) => Number(words.exec(doc)?.[1]),
  );
  expect(half).toBe(Number((Math.PI / 6).toFixed(2)));
  expect(shaft).toBe(Number((Math.PI / 4).toFixed(2)));
});

test.each([
  // 8 mm by 7 mm and 11 mm deep: between these two lies what it takes.
  [8, 7, 11, 0.323, 0.484],
  [10, 8, 12, 0.503, 0.754],
])('%d mm by %d mm, %d mm deep: %d to %d mL', (width, breadth, depth, least, most) => {
  const box = (width * breadth * depth) / 1000;
  expect(integrated(SHAPES[0][1]) * box).toBeCloseTo(least, 3);
  expect(integrated(SHAPES[1][1]) * box).toBeCloseTo(most, 3);
});
