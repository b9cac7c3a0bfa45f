import { expect, test } from 'vitest';
import { consistency } from '../../../server/src/analysis/time/consistency.ts';
import { minimalNetwork } from '../../../server/src/analysis/time/minimal-network.ts';
import { between, latest, network } from '../../support/networks.ts';

const { POSITIVE_INFINITY: never } = Number;

test('limits come to what they imply between every two moments', () => {
  const net = network(3, { limits: [between(0, 1, 5, 10)], links: [between(1, 2, 20, 30)] });
  expect(rows(net)).toEqual([
    [0, 10, 40],
    [-5, 0, 30],
    [-25, -20, 0],
  ]);
});

test('where nothing says how much later, the most is without end', () => {
  const net = network(3, { joins: [latest(2, [1, 7])] });
  expect(rows(net)).toEqual([
    [0, never, never],
    [0, 0, never],
    [-7, -7, 0],
  ]);
});

test('limits that contradict each other have no such network, but the same reasons as told elsewhere', () => {
  const net = network(2, { limits: [between(0, 1, 9, 7)] });
  expect(minimalNetwork(net)).toEqual(consistency(net));
});

function rows(net: Parameters<typeof minimalNetwork>[0]): number[][] {
  const answer = minimalNetwork(net);
  if (!answer.consistent) throw new Error('a contradiction');
  const { points } = net;
  return Array.from({ length: points }, (_, from) => [...answer.distance.subarray(from * points, (from + 1) * points)]);
}
