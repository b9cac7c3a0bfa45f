import { adjacency, at, type DistanceGraph, distanceGraph, NONE, shorten } from './distance-graph.ts';
import type { Part, TimeNetwork } from './network.ts';

export type Consistency =
  | {
      readonly consistent: true;
      /** by moment, seconds since moment 0 */
      readonly earliest: Float64Array;
      /** by moment, seconds since moment 0; Infinity where nothing says how late */
      readonly latest: Float64Array;
    }
  | Contradiction;

export interface Contradiction {
  readonly consistent: false;
  /** what contradicts itself, in the order of time: from the first of its moments forth, and by what limits it back to it */
  readonly cycle: readonly Part[];
  /** seconds by which it falls short, positive */
  readonly by: number;
}

/**
 * Whether times exist that keep every limit of `network`, links read as limits (somebody could choose them) and joins as "not before".
 * If so, how early and how late each moment can be, each by itself; if not, a cycle of what contradicts itself.
 *
 * Shortest ways in the distance graph (Dechter, Meiri and Pearl, Artif Intell 1991;49:61-95). Nothing comes before moment 0: that
 * has no part in a cycle's words. Contradictions of less than `SAME_TIME` for each part are none.
 */
export function consistency(network: TimeNetwork): Consistency {
  const graph = distanceGraph(network);
  const { points } = graph;
  // From each moment back to moment 0. Nothing comes before it, so each moment has a distance to begin with, by an edge of the first
  // ones; and whatever contradicts itself anywhere is met here.
  const back = new Float64Array(points);
  const by = Int32Array.from(back, (_, point) => (point === 0 ? NONE : point - 1));
  const met = shorten(adjacency(graph, 'back'), back, by, graph.to);
  if (met !== undefined) return contradiction(graph, by, met);

  const latest = new Float64Array(points).fill(Number.POSITIVE_INFINITY);
  latest[0] = 0;
  shorten(adjacency(graph, 'forth'), latest, new Int32Array(points).fill(NONE), graph.from);
  return { consistent: true, earliest: back.map((distance) => 0 - distance), latest };
}

/** The cycle through `met`, by edges that lead from a moment to one that its distance came by. */
function contradiction(graph: DistanceGraph, by: Int32Array, met: number): Contradiction {
  // Each entry: not before `gain` after the entry before it. Gathered from the end.
  const round: { readonly part: Part | undefined; readonly gain: number }[] = [];
  let point = met;
  do {
    const edge = at(by, point);
    round.push({ part: graph.parts[edge], gain: 0 - at(graph.weight, edge) });
    point = at(graph.to, edge);
  } while (point !== met);
  round.reverse();

  let time = 0;
  let first = { at: 0, time: 0 };
  for (const [index, { gain }] of round.entries()) {
    time += gain;
    if (gain < 0 ? time <= first.time : time < first.time) first = { at: index + 1, time };
  }
  return {
    consistent: false,
    cycle: [...round.slice(first.at), ...round.slice(0, first.at)].flatMap(({ part }) => part ?? []),
    by: time,
  };
}
