import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { breakingRun } from '../../../server/src/analysis/time/breaking-run.ts';
import { judgeNetwork } from '../../../server/src/analysis/time/controllability.ts';
import { brokenLimits, runNetwork, strategyOf } from '../../../server/src/analysis/time/dispatch.ts';
import type { TimeNetwork } from '../../../server/src/analysis/time/network.ts';
import { networks } from '../../support/network-games.ts';
import { between, latest, network } from '../../support/networks.ts';

const run = (net: TimeNetwork, ...durations: number[]): number[] => [
  ...runNetwork(net, (link) => durations[link] ?? Number.NaN),
];

describe('a team that follows its strategy', () => {
  test('does everything as early as it may', () => {
    const net = network(4, {
      links: [between(1, 2, 5, 9)],
      limits: [between(0, 1, 2, 20), between(2, 3, 4, 8)],
    });
    expect(run(net, 6)).toEqual([0, 2, 8, 12]);
  });
  test('holds back what would otherwise come too early for something later', () => {
    const net = network(4, {
      links: [between(1, 2, 5, 9)],
      limits: [between(0, 1, 2, 20), between(0, 3, 18, 18), between(2, 3, 0, 6)],
    });
    // 3 is at 18, so 2 is at 12 at the earliest, and 1 at 7: then the longest is over by 16.
    expect(run(net, 5)).toEqual([0, 7, 12, 18]);
    expect(run(net, 9)).toEqual([0, 7, 16, 18]);
  });
  test('waits for the end of a stretch or until it need not wait any longer, whichever is first', () => {
    const net = network(3, { links: [between(0, 1, 0, 6)], limits: [between(1, 2, -2, 2), between(0, 2, 0)] });
    expect(run(net, 1)).toEqual([0, 1, 1]);
    expect(run(net, 4)).toEqual([0, 4, 4]);
    expect(run(net, 6)).toEqual([0, 6, 4]);
  });
  test('goes on at once where several things meet', () => {
    const net = network(5, {
      links: [between(0, 1, 1, 9), between(0, 2, 1, 9), between(3, 4, 1, 2)],
      joins: [latest(3, [1, 2], [2])],
    });
    expect(run(net, 3, 4, 1)).toEqual([0, 3, 4, 5, 6]);
    expect(run(net, 3, 8, 2)).toEqual([0, 3, 8, 8, 10]);
  });
  test('comes as near as it can where not everything can be kept', () => {
    const net = network(3, { links: [between(0, 1, 2, 9)], limits: [between(1, 2, 3, 7), between(0, 2, 10, 11)] });
    expect(run(net, 2)).toEqual([0, 2, 9]);
    expect(
      brokenLimits(
        net,
        runNetwork(net, () => 2),
      ),
    ).toEqual([1]);
    expect(run(net, 9)).toEqual([0, 9, 12]);
    expect(
      brokenLimits(
        net,
        runNetwork(net, () => 9),
      ),
    ).toEqual([1]);
  });
  test('has a run even where limits contradict each other', () => {
    const net = network(2, { limits: [between(0, 1, 4, 3)] });
    expect(
      brokenLimits(
        net,
        runNetwork(net, () => 0),
      ),
    ).toEqual([0]);
  });
});

test('times that differ by less than seconds can show keep a limit', () => {
  const net = network(2, { limits: [between(0, 1, 3, 5)] });
  expect(brokenLimits(net, Float64Array.of(0, 5 + 1e-9))).toEqual([]);
  expect(brokenLimits(net, Float64Array.of(0, 3 - 1e-9))).toEqual([]);
  expect(brokenLimits(net, Float64Array.of(0, 5.001))).toEqual([0]);
});

/** Lengths for every link: where along its range, 0 the shortest and 1 the longest. */
const lengths = (net: TimeNetwork, along: (link: number) => number): Float64Array =>
  Float64Array.from(net.links, ({ lo, hi }, link) => lo + (hi - lo) * along(link));
const play = (net: TimeNetwork, durations: Float64Array): Float64Array =>
  strategyOf(net)((link) => durations[link] ?? Number.NaN);
const along = fc.array(fc.oneof(fc.constantFrom(0, 1), fc.double({ min: 0, max: 1, noNaN: true })), {
  minLength: 32,
  maxLength: 32,
});

describe('any network', () => {
  const any = networks({ points: [3, 16], joins: true, numbers: 6 });

  test('is played as it is made: stretches take their time, joins come at once, nothing comes before the beginning', () => {
    fc.assert(
      fc.property(any, along, (net, parts) => {
        const durations = lengths(net, (link) => parts[link] ?? 0);
        const times = play(net, durations);
        const at = (moment: number): number => times[moment] ?? Number.NaN;
        for (const [link, { from, to }] of net.links.entries()) expect(at(to)).toBe(at(from) + (durations[link] ?? 0));
        for (const { point, after } of net.joins)
          expect(at(point)).toBe(Math.max(...after.map(({ from, delay }) => at(from) + delay)));
        expect(times.every((time) => time >= 0)).toBe(true);
        expect(at(0)).toBe(0);
      }),
      { numRuns: 1000 },
    );
  });

  test('is played without foresight: what is alike up to a time is played alike up to it', () => {
    fc.assert(
      fc.property(any, along, along, fc.double({ min: 0, max: 1, noNaN: true }), (net, one, other, share) => {
        const first = lengths(net, (link) => one[link] ?? 0);
        const times = play(net, first);
        const now = share * Math.max(...times);
        // What is over by now stays as it is; all else turns out anew, but not to be over by now.
        const second = lengths(net, (link) => other[link] ?? 0).map((length, link) => {
          const { from = 0, to = 0, hi = 0 } = net.links[link] ?? {};
          const known = first[link] ?? 0;
          if ((times[to] ?? 0) <= now) return known;
          return Math.min(hi, Math.max(length, now - (times[from] ?? 0) + (known - (now - (times[from] ?? 0))) / 2));
        });
        const again = play(net, second);
        for (const [moment, time] of times.entries()) if (time <= now) expect(again[moment]).toBe(time);
        expect(again.every((time, moment) => time > now || time === times[moment])).toBe(true);
      }),
      { numRuns: 2000 },
    );
  });
});

describe('in a network that holds', () => {
  test('no run breaks a limit', () => {
    let runs = 0;
    let links = 0;
    const holding = networks({ points: [3, 18], joins: true, numbers: 8 }).filter(
      (net) => net.links.length > 0 && judgeNetwork(net).answer === 'holds',
    );
    fc.assert(
      fc.property(holding, fc.array(along, { minLength: 12, maxLength: 12 }), fc.nat(), (net, random, corners) => {
        const strategy = strategyOf(net);
        links += net.links.length;
        const tried = [
          () => 0,
          () => 1,
          ...Array.from({ length: 10 }, (_, turn) => (link: number) => ((corners + turn * 7919) >> (link % 20)) & 1),
          ...random.map((parts) => (link: number) => parts[link] ?? 0),
        ];
        for (const one of tried) {
          const durations = lengths(net, one);
          const times = strategy((link) => durations[link] ?? Number.NaN);
          expect(brokenLimits(net, times)).toEqual([]);
          runs++;
        }
      }),
      { numRuns: 600 },
    );
    expect(runs).toBeGreaterThanOrEqual(12_000);
    expect(links).toBeGreaterThan(1500);
  });
});

describe('in a network that does not hold', () => {
  test('a run is found that breaks a limit', () => {
    let found = 0;
    const broken = networks({ points: [3, 24], joins: true, numbers: 8 })
      .map((net) => ({ net, verdict: judgeNetwork(net) }))
      .filter(({ verdict }) => verdict.answer !== 'holds');
    fc.assert(
      fc.property(broken, ({ net, verdict }) => {
        const run = breakingRun(net, verdict);
        if (run === undefined) throw new Error('no run was found');
        found++;
        expect(run.broken.length).toBeGreaterThan(0);
        expect(brokenLimits(net, run.times)).toEqual(run.broken);
        expect(
          net.links.every(
            ({ lo, hi }, link) => (run.durations[link] ?? -1) >= lo && (run.durations[link] ?? hi + 1) <= hi,
          ),
        ).toBe(true);
        expect([...runNetwork(net, (link) => run.durations[link] ?? Number.NaN)]).toEqual([...run.times]);
      }),
      { numRuns: 1500 },
    );
    expect(found).toBeGreaterThanOrEqual(1500);
  });

  test('the run takes the lengths that the answer hangs on, and otherwise the shortest', () => {
    const net = network(4, {
      links: [between(0, 1, 1, 2), between(1, 2, 5, 10), between(2, 3, 3, 4)],
      limits: [between(1, 3, 0, 13)],
    });
    const run = breakingRun(net, judgeNetwork(net));
    expect(run && { durations: [...run.durations], times: [...run.times], broken: run.broken }).toEqual({
      durations: [1, 10, 4],
      times: [0, 1, 11, 15],
      broken: [0],
    });
  });

  test('a stretch that may not be foreseen is shown as it turns out against what was done', () => {
    const net = network(3, { links: [between(0, 1, 1, 3)], limits: [between(2, 1, 1, 2)] });
    const run = breakingRun(net, judgeNetwork(net));
    expect(run && { durations: [...run.durations], times: [...run.times], broken: run.broken }).toEqual({
      durations: [3],
      times: [0, 3, 0],
      broken: [0],
    });
  });

  test('a network that holds has no such run', () => {
    const net = network(2, { links: [between(0, 1, 1, 3)], limits: [between(0, 1, 1, 3)] });
    expect(breakingRun(net, judgeNetwork(net))).toBeUndefined();
  });
});
