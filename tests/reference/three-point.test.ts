/** Mean and variance of PERT over two published exercises; see pert-tables.ts for their sources. */
import { expect, test } from 'vitest';
import { meanAndVariance, simulate } from '../../server/src/analysis/time/three-point.ts';
import { everyRow, nine } from './pert-tables.ts';

test.each(everyRow.map(([table, row]) => [`${row.name} of the ${table}`, row] as const))(
  '%s has the mean and the variance of the table',
  (_, { shortest, usual, longest, mean, variance }) => {
    const found = meanAndVariance({ lo: shortest, hi: longest, usual });
    expect(found.mean).toBeCloseTo(mean, 4);
    expect(found.variance).toBeCloseTo(variance, 4);
  },
);

// The solution of the first exercise expects 21.5 days of its critical path alone. Played with all three paths, the last one to finish
// counts, so that half of the runs take longer: what a figure of one path leaves out.
test('played with all its paths, the first exercise takes longer than its critical path', () => {
  const played = (names: readonly string[]): number =>
    simulate(20_000, 2026, (draw) => {
      const lengths = nine.map(({ shortest, usual, longest }) => draw({ lo: shortest, hi: longest, usual }));
      return Math.max(
        ...names.map((path) => sum(nine.map(({ name }, at) => (path.includes(name) ? (lengths[at] ?? 0) : 0)))),
      );
    }).median;
  expect(played(['DFG'])).toBeGreaterThan(21.3);
  expect(played(['DFG'])).toBeLessThan(21.7);
  expect(played(['DFG', 'ACE', 'BHI'])).toBeGreaterThan(played(['DFG']) + 0.1);
});

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
