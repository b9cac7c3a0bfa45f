import { type Contradiction, consistency } from './consistency.ts';
import { adjacency, distanceGraph, NONE, shorten } from './distance-graph.ts';
import type { TimeNetwork } from './network.ts';

export type MinimalNetwork = { readonly consistent: true; readonly distance: DistanceMatrix } | Contradiction;

/**
 * `points` × `points` numbers, row by row: in row `from`, column `to` the most that `t[to] - t[from]` can be, seconds; Infinity where
 * nothing says so. The least it can be is minus the number in row `to`, column `from`.
 */
export type DistanceMatrix = Float64Array;

/**
 * What the limits of `network` come to between every two moments, or what in them contradicts itself: the minimal network of Dechter,
 * Meiri and Pearl (Artif Intell 1991;49:61-95), each moment's shortest ways to all others. Links are read as limits, joins as "not
 * before", and nothing comes before moment 0.
 */
export function minimalNetwork(network: TimeNetwork): MinimalNetwork {
  const judged = consistency(network);
  if (!judged.consistent) return judged;
  const { points } = network;
  const graph = distanceGraph(network);
  const forth = adjacency(graph, 'forth');
  const distance = new Float64Array(points * points).fill(Number.POSITIVE_INFINITY);
  for (let from = 0; from < points; from++) {
    const row = distance.subarray(from * points, (from + 1) * points);
    row[from] = 0;
    shorten(forth, row, new Int32Array(points).fill(NONE), graph.from);
  }
  return { consistent: true, distance };
}
