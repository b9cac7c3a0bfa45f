/**
 * Networks whose controllability is known.
 * Sources:
 * - Morris, Muscettola and Vidal, "Dynamic control of plans with temporal uncertainty", IJCAI 2001: the triangle of a stretch and a moment
 *   that has to come before, after or near its end (rule from memory; each answer worked out again by trying all whole numbers).
 * - Morris, "A structural characterization of temporal dynamic controllability", CP 2006, LNCS 4204:375-389: near the end, either side; and
 *   a network of two stretches (numbers seen in public teaching files that bear the paper's name).
 * - Hunsberger, "Magic loops in simple temporal networks with uncertainty", ICAART 2013: networks of two and three stretches in which
 *   a cycle falls short only if it goes through the same stretch several times (title from memory, numbers seen in public teaching files).
 */
import { describe, expect, test } from 'vitest';
import { judgeNetwork, type Verdict } from '../../server/src/analysis/time/controllability.ts';
import type { TimeNetwork } from '../../server/src/analysis/time/network.ts';
import { weightOf, winnable } from '../support/network-games.ts';
import { between, network } from '../support/networks.ts';

const { NEGATIVE_INFINITY: ever, POSITIVE_INFINITY: never } = Number;

describe('one stretch, from 0 to 1, and one moment that is chosen, 2', () => {
  const rows: readonly [
    name: string,
    stretch: readonly [number, number],
    afterStart: readonly [number, number],
    afterEnd: readonly [number, number],
    answer: Verdict['answer'],
    why: string,
  ][] = [
    ['U1', [1, 3], [0, never], [1, 2], 'holds', 'wait for the end, then act'],
    ['U2', [1, 3], [0, never], [-2, -1], 'can break', 'at 0 at the latest, and at 1 at the earliest'],
    ['U3', [0, 4], [0, never], [-2, 2], 'holds', '2 always does'],
    ['U4', [0, 6], [0, never], [-2, 2], 'holds', 'wait for the end or until 4'],
    ['U5', [2, 10], [5, 8], [-3, 3], 'holds', 'wait for the end, not before 5, or until 7'],
    ['U6', [2, 10], [5, 6], [-3, 3], 'can break', 'the longest needs 7 at least'],
    ['U8', [12, 26], [0, never], [0, 4], 'holds', 'book when it is seen to be over'],
    ['U9', [12, 26], [0, never], [-4, -2], 'can break', 'it would have to be foreseen'],
    ['U10', [12, 26], [16, 20], [0, never], 'can break', 'the longest needs 26 at least'],
  ];
  test.each(rows)('%s: a stretch of %j, 2 at %j after its start and %j after its end: %s (%s)', (...row) => {
    const [, stretch, afterStart, afterEnd, answer] = row;
    const net = network(3, {
      links: [between(0, 1, ...stretch)],
      limits: [between(0, 2, ...afterStart), between(1, 2, ...afterEnd)],
    });
    expect(judgeNetwork(net).answer).toBe(answer);
    expect(winnable(net)).toBe(answer === 'holds');
  });

  test('U7: no limit makes a stretch shorter than it may turn out', () => {
    const net = network(2, { links: [between(0, 1, 2, 8)], limits: [between(0, 1, 2, 6)] });
    expect(judgeNetwork(net)).toMatchObject({ answer: 'can break', by: 2 });
  });

  test('a moment that comes strictly before the end is as early and as late as the triangle rule says', () => {
    // Stretch [x, y], end u to v after the moment, u > 0: the moment is y - v to x - u after the start.
    const window = (y: number): Verdict['answer'] =>
      judgeNetwork(network(3, { links: [between(0, 1, 8, y)], limits: [between(2, 1, 3, 7)] })).answer;
    expect(window(12)).toBe('holds');
    expect(window(13)).toBe('can break');
  });
});

/** An edge as those sources write it: `b` at most `most` after `a`. Moment 0 is put before all of theirs. */
const atMost = (a: number, most: number, b: number) => between(a, b, ever, most);

const cannot: readonly [name: string, net: TimeNetwork][] = [
  [
    'two stretches, their ends near each other, and a third moment 2 to 4 before one of them',
    network(6, {
      links: [between(1, 2, 0, 2), between(3, 4, 0, 3)],
      limits: [atMost(2, 1, 4), atMost(4, 3, 2), atMost(2, -2, 5), atMost(5, 4, 2)],
    }),
  ],
  [
    'the magic loop of two stretches',
    network(6, {
      links: [between(2, 3, 1, 3), between(4, 5, 1, 10)],
      limits: [atMost(1, 12, 3), atMost(5, 8, 3), atMost(3, -7, 1), atMost(3, -1, 5)],
    }),
  ],
  [
    'the magic loop of three stretches',
    network(8, {
      links: [between(1, 2, 1, 3), between(3, 4, 1, 10), between(5, 6, 1, 36)],
      limits: [
        atMost(7, 48, 2),
        atMost(6, 34, 2),
        atMost(4, 8, 2),
        atMost(2, -29, 7),
        atMost(2, -7, 6),
        atMost(2, -1, 4),
      ],
    }),
  ],
];

describe('networks of several stretches', () => {
  test.each(cannot)('cannot be controlled: %s', (_, net) => {
    const verdict = judgeNetwork(net);
    if (verdict.answer !== 'can break') throw new Error(verdict.answer);
    expect(weightOf(net, verdict.answer, verdict.cycle)).toBeCloseTo(-verdict.by, 9);
  });

  test('the magic loop goes through the same stretches several times', () => {
    const verdict = judgeNetwork(cannot[2]?.[1] ?? network(1, {}));
    const shortest =
      verdict.answer === 'holds' ? [] : verdict.cycle.filter(({ type, side }) => type === 'link' && side === 'lo');
    // 2^3 - 1 at the most.
    expect(shortest.length).toBeGreaterThan(3);
    expect(shortest.length).toBeLessThanOrEqual(7);
  });

  test('where one limit of the magic loop is wider, it can be controlled', () => {
    const [, two = network(1, {})] = cannot[1] ?? [];
    expect(judgeNetwork({ ...two, limits: two.limits.with(1, atMost(5, 11, 3)) }).answer).toBe('holds');
    const [, three = network(1, {})] = cannot[2] ?? [];
    expect(judgeNetwork({ ...three, limits: three.limits.with(1, atMost(6, 37, 2)) }).answer).toBe('holds');
  });
});
