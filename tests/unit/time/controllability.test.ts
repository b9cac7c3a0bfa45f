import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { judgeNetwork, type Verdict } from '../../../server/src/analysis/time/controllability.ts';
import type { Limit, TimeNetwork } from '../../../server/src/analysis/time/network.ts';
import { networks, possible, weightOf, winnable } from '../../support/network-games.ts';
import { between, inWords, latest, network } from '../../support/networks.ts';

const { NEGATIVE_INFINITY: ever } = Number;

/** The answer, what of the network it hangs on, and by how much. */
function told(net: TimeNetwork): string {
  const verdict = judgeNetwork(net);
  return verdict.answer === 'holds'
    ? 'holds'
    : `${verdict.answer}: ${inWords(verdict.cycle).join(', ')}; short by ${verdict.by}`;
}

describe('one stretch and one limit', () => {
  const stretch = (lo: number, hi: number): string =>
    told(network(2, { links: [between(0, 1, 5, 10)], limits: [between(0, 1, lo, hi)] }));

  test('a limit that the longest and the shortest keep holds', () => {
    expect(stretch(5, 10)).toBe('holds');
  });
  test('a limit that the longest does not keep can break', () => {
    expect(stretch(5, 9.5)).toBe('can break: link 0 hi, limit 0 hi; short by 0.5');
  });
  test('a limit that the shortest does not keep can break', () => {
    expect(stretch(6, 10)).toBe('can break: link 0 lo, limit 0 lo; short by 1');
  });
  test('a limit that not even the shortest keeps always breaks', () => {
    expect(stretch(0, 4)).toBe('always breaks: link 0 lo, limit 0 hi; short by 1');
  });
  test('a difference below what seconds can show is none', () => {
    expect(stretch(5, 10 - 1e-9)).toBe('holds');
  });
});

describe('what the team decides', () => {
  test('a wait that may be stretched makes up for a short step', () => {
    const net = (hi: number): TimeNetwork =>
      network(3, { links: [between(0, 1, 2, 9)], limits: [between(1, 2, 0, hi), between(0, 2, 10, 10)] });
    expect(told(net(8))).toBe('holds');
    expect(told(net(7))).toBe('can break: link 0 lo, limit 0 hi, limit 1 lo; short by 1');
  });
  test('what would have to be foreseen can break', () => {
    const net = network(3, { links: [between(0, 1, 1, 3)], limits: [between(2, 1, 1, 2), between(0, 2, 0)] });
    expect(told(net)).toBe('can break: link 0 hi, link 0 lo, limit 0 lo, limit 0 hi; short by 1');
  });
  test('the team may act at the very moment at which it sees something', () => {
    const net = network(3, { links: [between(0, 1, 1, 3)], limits: [between(1, 2, 0, 0)] });
    expect(told(net)).toBe('holds');
  });
  test('nothing can be done before the beginning', () => {
    const net = network(3, { links: [between(0, 1, 0, 3)], limits: [between(2, 1, 1, 9)] });
    expect(told(net)).toBe('can break: link 0 lo, limit 0 lo; short by 1');
  });
});

describe('all that a network may consist of', () => {
  test('a stretch of one length is known beforehand', () => {
    const net = network(3, { links: [between(0, 1, 7, 7)], limits: [between(0, 2, 4, 4), between(2, 1, 3, 3)] });
    expect(told(net)).toBe('holds');
  });
  test('a stretch begins where another ends', () => {
    const net = (hi: number): TimeNetwork =>
      network(4, {
        links: [between(0, 1, 0, 4), between(1, 2, 5, 5), between(2, 3, 1, 2)],
        limits: [between(0, 3, 6, hi)],
      });
    expect(told(net(11))).toBe('holds');
    expect(told(net(10))).toBe('can break: link 0 hi, link 1 hi, link 2 hi, limit 0 hi; short by 1');
  });
  test('of several limits on the same two moments the narrowest counts', () => {
    const limits = [between(0, 1, ever, 12), between(0, 1, 4), between(1, 0, -9, -1)];
    expect(told(network(2, { links: [between(0, 1, 5, 10)], limits }))).toBe(
      'can break: link 0 hi, limit 2 lo; short by 1',
    );
  });
  test('no time keeps a limit that is the wrong way round', () => {
    const net = network(3, { links: [between(0, 1, 5, 10)], limits: [between(1, 2, 4, 3)] });
    expect(told(net)).toBe('always breaks: limit 0 lo, limit 0 hi; short by 1');
  });
  test('a limit of a moment on itself asks for nothing, or for what cannot be', () => {
    expect(told(network(2, { limits: [between(1, 1, -1, 1)] }))).toBe('holds');
    expect(told(network(2, { limits: [between(1, 1, 1, 2)] }))).toBe('always breaks: limit 0 lo; short by 1');
  });
  test('the beginning alone holds', () => {
    expect(told(network(1, {}))).toBe('holds');
  });
  test('a moment that waits for itself is refused', () => {
    const net = network(3, { joins: [latest(1, [2]), latest(2, [1])] });
    expect(() => judgeNetwork(net)).toThrow('moment 1 of the network waits for itself');
  });
});

describe('moments that come at once', () => {
  /** Two steps side by side, 0 to 1 and 0 to 2; 3 is when both are over. */
  const lanes = (...limits: Limit[]): TimeNetwork =>
    network(4, { links: [between(0, 1, 4, 6), between(0, 2, 2, 9)], joins: [latest(3, [1], [2])], limits });

  test('come when the longer of two is over', () => {
    expect(told(lanes(between(0, 3, 4, 9)))).toBe('holds');
    expect(told(lanes(between(0, 3, 4, 8)))).toBe('can break: link 1 hi, join 0.1 not before, limit 0 hi; short by 1');
  });
  test('cannot be held back', () => {
    expect(told(lanes(between(0, 3, 5)))).toBe('can break: link 0 lo, join 0.0 at once, limit 0 lo; short by 1');
  });
  test('always break a limit that they could keep only if they were held back', () => {
    const verdict = judgeNetwork(lanes(between(0, 3, 10)));
    expect(verdict).toMatchObject({ answer: 'always breaks', by: 1 });
  });
  test('come after the one that waits long enough by itself', () => {
    // 3 is over when 2 is, but not before 10 after 1.
    const net = network(4, {
      links: [between(0, 1, 1, 30), between(1, 2, 2, 20)],
      joins: [latest(3, [2], [1, 10])],
      limits: [between(1, 3, 10, 20)],
    });
    expect(told(net)).toBe('holds');
  });
  test('are kept back by something that the team can keep back', () => {
    const net = (hi: number): TimeNetwork =>
      network(4, {
        links: [between(0, 1, 1, 9)],
        joins: [latest(3, [1], [2])],
        limits: [between(0, 2, 0, hi), between(0, 3, 7)],
      });
    expect(told(net(7))).toBe('holds');
    expect(told(net(6))).toMatch(/^can break: .* short by 1$/);
  });
  test('are met by what the team does just before whichever of two will be later', () => {
    // 4 is to be exactly 1 before 3: so at 4, or 3 after the stretch is over.
    const net = network(5, {
      links: [between(0, 1, 1, 3)],
      limits: [between(4, 3, 1, 1), between(0, 4, 0)],
      joins: [latest(3, [0, 5], [1, 4])],
    });
    expect(told(net)).toBe('holds');
  });
  test('where one that something chosen keeps back has to be just before another, the answer is too strict', () => {
    const net = network(6, {
      links: [between(0, 1, 1, 4), between(0, 2, 1, 3)],
      limits: [between(5, 3, 1, 2)],
      joins: [latest(3, [1, 2], [2, 3]), latest(5, [4, 1], [0, 2])],
    });
    expect(winnable(net)).toBe(true);
    expect(judgeNetwork(net).answer).toBe('can break');
  });
});

describe('against trying everything', () => {
  const truth = (net: TimeNetwork): Verdict['answer'] => {
    if (winnable(net)) return 'holds';
    return possible(net) ? 'can break' : 'always breaks';
  };

  test('without joins every answer is exact', () => {
    const told = new Map<string, number>();
    fc.assert(
      fc.property(networks({ points: [2, 6], joins: false, numbers: 3 }), (net) => {
        const { answer } = judgeNetwork(net);
        expect(answer).toBe(truth(net));
        told.set(answer, (told.get(answer) ?? 0) + 1);
      }),
      { numRuns: 8000 },
    );
    expect(Math.min(...['holds', 'can break', 'always breaks'].map((answer) => told.get(answer) ?? 0))).toBeGreaterThan(
      600,
    );
  });

  test('with joins nothing is said to hold, or always to break, that does not; and hardly ever is an answer too strict', () => {
    const told = new Map<string, number>();
    let strict = 0;
    fc.assert(
      fc.property(networks({ points: [3, 7], joins: true, numbers: 3 }), (net) => {
        fc.pre(net.joins.length > 0);
        const { answer } = judgeNetwork(net);
        const exact = truth(net);
        if (answer === 'can break' && exact !== 'can break') strict++;
        else expect(answer).toBe(exact);
        told.set(answer, (told.get(answer) ?? 0) + 1);
      }),
      { numRuns: 8000 },
    );
    expect(Math.min(...['holds', 'can break', 'always breaks'].map((answer) => told.get(answer) ?? 0))).toBeGreaterThan(
      600,
    );
    // Seen: 3 of 1 336 000 networks of 5 to 8 moments.
    expect(strict).toBeLessThanOrEqual(1);
  });
});

describe('what an answer hangs on', () => {
  const broken = (joins: boolean): fc.Arbitrary<{ readonly net: TimeNetwork; readonly verdict: Verdict }> =>
    networks({ points: [3, 24], joins, numbers: 9 })
      .map((net) => ({ net, verdict: judgeNetwork(net) }))
      .filter(({ verdict }) => verdict.answer !== 'holds');

  test('sums to what it falls short by, and has a limit in it', () => {
    fc.assert(
      fc.property(broken(true), ({ net, verdict }) => {
        if (verdict.answer === 'holds') throw new Error('left out above');
        expect(verdict.by).toBeGreaterThan(0);
        expect(weightOf(net, verdict.answer, verdict.cycle)).toBeCloseTo(-verdict.by, 6);
        expect(verdict.cycle.some(({ type }) => type === 'limit')).toBe(true);
      }),
      { numRuns: 2000 },
    );
  });

  // Where it matters that a stretch may be short, a limit can also be mended by letting the team see the end of the stretch (Bhargava, Vaquero
  // and Williams, "Faster conflict generation for dynamic controllability", IJCAI 2017): that may take less.
  test('without joins, and stretches being short, still falls short when its limits are loosened by less together', () => {
    let tried = 0;
    fc.assert(
      fc.property(broken(false), ({ net, verdict }) => {
        if (verdict.answer === 'holds') throw new Error('left out above');
        if (verdict.answer === 'can break' && verdict.cycle.some(({ type, side }) => type === 'link' && side === 'lo'))
          return;
        tried++;
        const limits = [...net.limits];
        const parts = verdict.cycle.filter((part) => part.type === 'limit');
        for (const { index, side } of parts) {
          const limit = limits[index];
          // A side that comes several times is loosened as often, and counts so each time.
          const often = parts.filter((part) => part.index === index && part.side === side).length;
          const by = (verdict.by * 0.99) / parts.length / often;
          if (limit) limits[index] = { ...limit, [side]: limit[side] + (side === 'lo' ? -by : by) };
        }
        expect(judgeNetwork({ ...net, limits }).answer).not.toBe('holds');
      }),
      { numRuns: 2000 },
    );
    expect(tried).toBeGreaterThan(1000);
  });

  test('a limit that is tightened little by little holds, then never again', () => {
    let flips = 0;
    fc.assert(
      fc.property(networks({ points: [3, 6], joins: true, numbers: 3 }), fc.nat(), fc.boolean(), (net, at, above) => {
        const index = at % Math.max(1, net.limits.length);
        const limit = net.limits[index];
        fc.pre(limit !== undefined && judgeNetwork(net).answer === 'holds');
        const tightened = (by: number): TimeNetwork => {
          const side = above ? { hi: Math.min(12, limit.hi) - by } : { lo: Math.max(-6, limit.lo) + by };
          return { ...net, limits: net.limits.with(index, { ...limit, ...side }) };
        };
        const holds = Array.from({ length: 20 }, (_, by) => judgeNetwork(tightened(by)).answer === 'holds');
        const margin = holds.indexOf(false);
        // A moment that nothing else limits can be as late as one likes.
        if (margin < 0) return;
        expect(holds.slice(margin).every((one) => !one)).toBe(true);
        if (margin === 0) return;
        flips++;
        expect(winnable(tightened(margin - 1))).toBe(true);
        expect(winnable(tightened(margin))).toBe(false);
      }),
      { numRuns: 400 },
    );
    expect(flips).toBeGreaterThan(200);
  });
});
