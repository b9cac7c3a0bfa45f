/** The passes forth and back over two published exercises; see pert-tables.ts for their sources. */
import { describe, expect, test } from 'vitest';
import { type CriticalPath, criticalPath } from '../../server/src/analysis/time/critical-path.ts';
import { meanAndVariance } from '../../server/src/analysis/time/three-point.ts';
import { fourteen, nine, type Row } from './pert-tables.ts';

describe.each([
  ['nine activities', nine, 21.5, ['D', 'F', 'G'], 1.8056],
  ['fourteen activities', fourteen, 50.8333, ['A', 'C', 'E', 'H', 'I', 'K', 'M', 'N'], 11.1944],
] as const)('%s', (_, table, length, critical, variance) => {
  const path = solved(table);

  test('the whole is as long as the table says', () => {
    expect(path.length).toBeCloseTo(length, 4);
  });

  test('the critical path is that of the table, and so is its variance', () => {
    const found = [...path.times].filter(([, times]) => times.critical).map(([name]) => name);
    expect(found).toEqual(critical);
    const along = table.filter(({ name }) => found.includes(name)).map((row) => figures(row).variance);
    expect(along.reduce((sum, value) => sum + value, 0)).toBeCloseTo(variance, 4);
  });

  test.each(table.map((row) => [row.name, row] as const))('%s starts and finishes when the table says', (name, row) => {
    const times = path.times.get(name);
    if (!times) throw new Error(`${name} has no times`);
    expect(times.earliestStart).toBeCloseTo(row.earliestStart, 4);
    expect(times.earliestFinish).toBeCloseTo(row.earliestFinish, 4);
    expect(times.latestStart).toBeCloseTo(row.latestStart, 4);
    expect(times.latestFinish).toBeCloseTo(row.latestFinish, 4);
    expect(times.slack).toBeCloseTo(row.slack, 4);
  });
});

// Each of the three paths of the first exercise by itself, as its solution sums them.
test.each([
  ['A C E', 20.5, 1.25],
  ['D F G', 21.5, 1.8056],
  ['B H I', 19.5, 0.5278],
])('the path %s sums to the published mean and variance', (names, mean, variance) => {
  const along = nine.filter(({ name }) => names.includes(name)).map(figures);
  expect(along).toHaveLength(3);
  expect(along.reduce((sum, one) => sum + one.mean, 0)).toBeCloseTo(mean, 4);
  expect(along.reduce((sum, one) => sum + one.variance, 0)).toBeCloseTo(variance, 4);
});

function figures({ shortest, usual, longest }: Row): ReturnType<typeof meanAndVariance> {
  return meanAndVariance({ lo: shortest, hi: longest, usual });
}

function solved(table: readonly Row[]): Extract<CriticalPath<string>, { ok: true }> {
  const path = criticalPath(table.map((row) => ({ name: row.name, duration: figures(row).mean, after: row.after })));
  if (!path.ok) throw new Error(path.reason);
  return path;
}
