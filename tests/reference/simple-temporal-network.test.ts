/**
 * The two commuters of Dechter, Meiri and Pearl, Temporal constraint networks, Artif Intell 1991;49:61-95. The story and its bounds are
 * from memory; distances, minimal network and the windows of the four readings are worked out from them by shortest ways, and the
 * distances agree with the paper's table as remembered.
 *
 * Moments: 0 is 7:00, 1 John leaves, 2 John arrives, 3 Fred leaves, 4 Fred arrives; minutes. John goes by car (30 to 40) or by bus (60 or
 * more), Fred by car (20 to 30) or in a carpool (40 to 50). John left at 7:10 to 7:20, Fred arrived at 8:00 to 8:10, and John arrived
 * 10 to 20 minutes after Fred had left.
 */
import { describe, expect, test } from 'vitest';
import { consistency } from '../../server/src/analysis/time/consistency.ts';
import { minimalNetwork } from '../../server/src/analysis/time/minimal-network.ts';
import type { TimeNetwork } from '../../server/src/analysis/time/network.ts';
import { between, inWords, network } from '../support/networks.ts';

const { POSITIVE_INFINITY: never } = Number;

const john = { car: between(1, 2, 30, 40), bus: between(1, 2, 60, never) };
const fred = { car: between(3, 4, 20, 30), carpool: between(3, 4, 40, 50) };
const commuters = (johns: keyof typeof john, freds: keyof typeof fred): TimeNetwork =>
  network(5, {
    limits: [between(0, 1, 10, 20), john[johns], between(3, 2, 10, 20), fred[freds], between(0, 4, 60, 70)],
  });

describe('John by car, Fred in a carpool', () => {
  const distance = distances(commuters('car', 'carpool'));

  test('the most between every two moments', () => {
    expect(distance).toEqual([
      [0, 20, 50, 30, 70],
      [-10, 0, 40, 20, 60],
      [-40, -30, 0, -10, 30],
      [-20, -10, 20, 0, 50],
      [-60, -50, -20, -40, 0],
    ]);
  });

  test.each([
    [0, 1, 10, 20],
    [0, 2, 40, 50],
    [0, 3, 20, 30],
    [0, 4, 60, 70],
    [1, 2, 30, 40],
    [1, 3, 10, 20],
    [1, 4, 50, 60],
    [2, 3, -20, -10],
    [2, 4, 20, 30],
    [3, 4, 40, 50],
  ])('the minimal network from moment %i to moment %i is %i to %i', (from, to, lo, hi) => {
    expect(distance[from]?.[to]).toBe(hi);
    expect(distance[to]?.[from]).toBe(-lo);
  });
});

describe('the four ways they may have gone', () => {
  test.each<[keyof typeof john, keyof typeof fred, readonly (readonly [number, number])[]]>([
    // biome-ignore format: a row a reading
    ['car', 'car', [[10, 20], [40, 60], [30, 50], [60, 70]]],
    // biome-ignore format: a row a reading
    ['car', 'carpool', [[10, 20], [40, 50], [20, 30], [60, 70]]],
    // biome-ignore format: a row a reading
    ['bus', 'car', [[10, 10], [70, 70], [50, 50], [70, 70]]],
  ])('John by %s, Fred by %s', (johns, freds, windows) => {
    const answer = consistency(commuters(johns, freds));
    if (!answer.consistent) throw new Error(inWords(answer.cycle).join(', '));
    expect([...answer.earliest].slice(1).map((earliest, at) => [earliest, answer.latest[at + 1]])).toEqual(windows);
  });

  test('John by bus and Fred in a carpool cannot be: Fred would arrive at 8:30, twenty minutes too late', () => {
    const answer = consistency(commuters('bus', 'carpool'));
    if (answer.consistent) throw new Error('no contradiction');
    expect(answer.by).toBe(20);
    // left, by bus, at most 20 after Fred had left, in the carpool, arrived
    expect(inWords(answer.cycle)).toEqual(['limit 0 lo', 'limit 1 lo', 'limit 2 hi', 'limit 3 lo', 'limit 4 hi']);
  });
});

function distances(net: TimeNetwork): number[][] {
  const answer = minimalNetwork(net);
  if (!answer.consistent) throw new Error('a contradiction');
  return Array.from({ length: net.points }, (_, from) => [
    ...answer.distance.subarray(from * net.points, (from + 1) * net.points),
  ]);
}
