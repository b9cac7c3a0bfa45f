/**
 * Networks drawn by chance, against a solver for linear programs (the library highs) that is told the limits as they stand: whether they
 * can be kept, how early and late each moment can be, and how far apart each two. A contradiction is added up again from the network.
 */
import fc from 'fast-check';
import { afterAll, expect, test } from 'vitest';
import { type Consistency, consistency } from '../../server/src/analysis/time/consistency.ts';
import { minimalNetwork } from '../../server/src/analysis/time/minimal-network.ts';
import type { Limit, TimeNetwork } from '../../server/src/analysis/time/network.ts';
import { linearProgram } from '../support/linear-program.ts';
import { shortBy } from '../support/networks.ts';

const program = await linearProgram();
afterAll(() => {
  program.dispose();
});

test.each([
  ['small', { points: 8, parts: 10, kept: 8 }, 2500],
  ['larger', { points: 40, parts: 60, kept: 40 }, 200],
])(
  '%s networks are consistent when the solver says so, and each moment is as early and as late as it says',
  (_, most, numRuns) => {
    const met = { consistent: 0, contradictory: 0 };
    fc.assert(
      fc.property(networks(most), (network) => {
        const answer = consistency(network);
        met[answer.consistent ? 'consistent' : 'contradictory']++;
        sameAsProgram(network, answer);
      }),
      { numRuns },
    );
    // Drawn so that both are met often: a test that met one only would show little.
    expect(met.consistent).toBeGreaterThan(numRuns / 8);
    expect(met.contradictory).toBeGreaterThan(numRuns / 8);
  },
);

test('between every two moments of a minimal network lies what the solver says', () => {
  fc.assert(
    fc.property(networks({ points: 6, parts: 7, kept: 8 }), (network) => {
      const answer = minimalNetwork(network);
      expect(answer.consistent).toBe(program.feasible(network));
      if (!answer.consistent) return;
      for (let from = 0; from < network.points; from++)
        for (let to = 0; to < network.points; to++) {
          if (from === to) continue;
          const { least, most } = program.span(from, to);
          same(answer.distance[from * network.points + to], most);
          same(answer.distance[to * network.points + from], -least);
        }
    }),
    { numRuns: 300 },
  );
});

function sameAsProgram(network: TimeNetwork, answer: Consistency): void {
  expect(answer.consistent).toBe(program.feasible(network));
  if (!answer.consistent) {
    expect(answer.by).toBeGreaterThan(0);
    expect(shortBy(network, answer.cycle)).toBeCloseTo(answer.by, 6);
    return;
  }
  for (let point = 1; point < network.points; point++) {
    const { least, most } = program.span(0, point);
    same(answer.earliest[point], least);
    same(answer.latest[point], most);
  }
}

function same(ours: number | undefined, solvers: number): void {
  if (Number.isFinite(solvers)) expect(ours).toBeCloseTo(solvers, 5);
  else expect(ours).toBe(solvers);
}

/**
 * Networks around a hidden run: `kept` of its limits, some by a hair, to one that it may break. Times are in halves, so that all sums are
 * exact.
 *
 * @param most so many moments and limits at most
 */
function networks(most: {
  readonly points: number;
  readonly parts: number;
  readonly kept: number;
}): fc.Arbitrary<TimeNetwork> {
  const half = (min: number, max: number): fc.Arbitrary<number> =>
    fc.integer({ min: min * 2, max: max * 2 }).map((value) => value / 2);
  return fc.array(half(0, 60), { minLength: 1, maxLength: most.points - 1, size: 'max' }).chain((later) => {
    const run = [0, ...later];
    const time = (point: number): number => run[point] ?? 0;
    const point = fc.nat({ max: run.length - 1 });
    const pair = fc.tuple(point, point).filter(([from, to]) => from !== to);
    const room = fc.oneof({ weight: most.kept, arbitrary: half(0, 12) }, { weight: 1, arbitrary: half(-8, 0) });
    const open = (value: fc.Arbitrary<number>): fc.Arbitrary<number> =>
      fc.oneof({ weight: 4, arbitrary: value }, { weight: 1, arbitrary: fc.constant(Number.POSITIVE_INFINITY) });
    const limit = fc.tuple(pair, open(room), open(room)).map(([[from, to], below, above]): Limit => {
      const apart = time(to) - time(from);
      return { from, to, lo: apart - below, hi: apart + above };
    });
    const link = fc.tuple(pair, half(0, 8), half(0, 8)).map(([[a, b], below, above]): Limit => {
      const [from, to] = time(a) <= time(b) ? [a, b] : [b, a];
      const apart = time(to) - time(from);
      const lo = Math.max(0, apart - below);
      return { from, to, lo, hi: Math.max(lo, apart + above) };
    });
    const join = fc
      .tuple(point, fc.array(fc.tuple(point, half(-2, 10)), { minLength: 1, maxLength: 3 }))
      .map(([last, waits]) => ({
        point: last,
        after: waits
          .filter(([from]) => from !== last && time(from) <= time(last))
          .map(([from, early]) => ({ from, delay: Math.max(0, time(last) - time(from) - early) })),
      }));
    const parts = Math.ceil((most.parts * run.length) / most.points);
    return fc.record({
      points: fc.constant(run.length),
      limits: fc.array(limit, { minLength: 1, maxLength: parts, size: 'max' }),
      links: fc.uniqueArray(link, { maxLength: Math.ceil(parts / 2), selector: ({ to }) => to }),
      joins: fc
        .uniqueArray(join, { maxLength: 2, selector: ({ point }) => point })
        .map((all) => all.filter(({ after }) => after.length > 0)),
    });
  });
}
