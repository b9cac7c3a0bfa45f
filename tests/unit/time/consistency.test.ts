import { expect, test } from 'vitest';
import { type Consistency, consistency } from '../../../server/src/analysis/time/consistency.ts';
import type { Part } from '../../../server/src/analysis/time/network.ts';
import { between, inWords, latest, network, shortBy } from '../../support/networks.ts';

const { POSITIVE_INFINITY: never } = Number;

test('moments without limits can be at any time from the beginning on', () => {
  expect(windows(consistency(network(2, {})))).toEqual([
    [0, 0],
    [0, never],
  ]);
});

test('a network of the beginning alone is consistent', () => {
  expect(windows(consistency(network(1, {})))).toEqual([[0, 0]]);
});

test('limits, stretches and joins carry a moment along', () => {
  const net = network(5, {
    limits: [between(0, 1, 5, 20)],
    links: [between(1, 2, 10, 30), between(1, 3, 2, 40)],
    joins: [latest(4, [2], [3, 4])],
  });
  expect(windows(consistency(net))).toEqual([
    [0, 0],
    [5, 20],
    [15, 50],
    [7, 60],
    [15, never],
  ]);
});

test('a limit on what comes later narrows what comes earlier', () => {
  const net = network(3, { limits: [between(0, 2, 0, 25)], links: [between(0, 1, 10, 30), between(1, 2, 5, 30)] });
  expect(windows(consistency(net))).toEqual([
    [0, 0],
    [10, 20],
    [15, 25],
  ]);
});

test('the numbers of the moments need not go as time does', () => {
  const net = network(4, { links: [between(0, 3, 1, 1), between(3, 1, 1, 1), between(1, 2, 1, 1)] });
  expect(windows(consistency(net))).toEqual([
    [0, 0],
    [2, 2],
    [3, 3],
    [1, 1],
  ]);
});

test('a contradiction is told in the order of time, with what it is short of', () => {
  const net = network(4, {
    limits: [between(1, 3, 0, 20)],
    links: [between(0, 1, 60, 60), between(1, 2, 15, 90), between(2, 3, 10, 90)],
  });
  expect(found(net)).toEqual({ cycle: ['link 1 lo', 'link 2 lo', 'limit 0 hi'], by: 5 });
});

test('a limit that ends before it begins contradicts itself', () => {
  expect(found(network(2, { limits: [between(0, 1, 9, 7)] }))).toEqual({ cycle: ['limit 0 lo', 'limit 0 hi'], by: 2 });
});

test('nothing comes before the beginning', () => {
  expect(found(network(2, { limits: [between(1, 0, 3)] }))).toEqual({ cycle: ['limit 0 lo'], by: 3 });
});

test('what a moment waits for holds it back', () => {
  const net = network(4, {
    limits: [between(0, 3, 0, 20)],
    links: [between(0, 1, 5, 8), between(0, 2, 11, 30)],
    joins: [latest(3, [1, 10], [2, 10])],
  });
  expect(found(net)).toEqual({ cycle: ['link 1 lo', 'join 0.1 not before', 'limit 0 hi'], by: 1 });
});

test('sums of decimals are the same time', () => {
  const tenth = Array.from({ length: 10 }, (_, at) => between(at, at + 1, 0.1, 0.1));
  expect(consistency(network(11, { links: tenth, limits: [between(0, 10, 1, 1)] })).consistent).toBe(true);
});

test('a contradiction at the end of two thousand moments is found, and only its reasons are told', () => {
  const links = Array.from({ length: 1999 }, (_, at) => between(at, at + 1, 60, 180));
  const net = network(2000, { links, limits: [between(10, 1990, 0, 1e7), between(1900, 1950, 0, 2999)] });
  const answer = contradiction(net);
  expect(answer.by).toBe(1);
  expect(inWords(answer.cycle)).toEqual([
    ...Array.from({ length: 50 }, (_, at) => `link ${1900 + at} lo`),
    'limit 1 hi',
  ]);
});

function windows(answer: Consistency): [number, number][] {
  if (!answer.consistent) throw new Error(`a contradiction: ${inWords(answer.cycle).join(', ')}`);
  return [...answer.earliest].map((earliest, point) => [earliest, answer.latest[point] ?? Number.NaN]);
}

function contradiction(net: Parameters<typeof consistency>[0]): { cycle: readonly Part[]; by: number } {
  const answer = consistency(net);
  if (answer.consistent) throw new Error('no contradiction');
  expect(shortBy(net, answer.cycle)).toBeCloseTo(answer.by, 6);
  return answer;
}

function found(net: Parameters<typeof consistency>[0]): { cycle: string[]; by: number } {
  const { cycle, by } = contradiction(net);
  return { cycle: inWords(cycle), by };
}
