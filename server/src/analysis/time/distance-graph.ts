import { type Part, SAME_TIME, type TimeNetwork } from './network.ts';

/**
 * The distance graph of a network (Dechter, Meiri and Pearl, Artif Intell 1991;49:61-95): an edge `from -> to` of weight `w` says
 * `t[to] - t[from] <= w`, so the shortest way from one moment to another is the most there can be between them. Links are read as
 * limits, joins as "not before".
 */
export interface DistanceGraph {
  readonly points: number;
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly weight: Float64Array;
  /** by edge: what of the network says so; undefined for the first `points - 1`, that nothing comes before moment 0 */
  readonly parts: readonly (Part | undefined)[];
}

/** Edges by the moment they leave, as rows: those of `point` are `edge[first[point]]` up to before `edge[first[point + 1]]`. */
export interface Adjacency {
  readonly first: Int32Array;
  readonly edge: Int32Array;
  readonly target: Int32Array;
  readonly weight: Float64Array;
}

/** The distance graph of `network`; a side without an end has no edge. */
export function distanceGraph(network: TimeNetwork): DistanceGraph {
  const { limits, links, joins } = network;
  const others = Math.max(0, network.points - 1);
  const room = others + 2 * (limits.length + links.length) + joins.reduce((sum, { after }) => sum + after.length, 0);
  const from = new Int32Array(room);
  const to = new Int32Array(room);
  const weight = new Float64Array(room);
  const parts: (Part | undefined)[] = [];
  const add = (a: number, b: number, w: number, part: Part | undefined): void => {
    const at = parts.push(part) - 1;
    from[at] = a;
    to[at] = b;
    weight[at] = w;
  };
  for (let point = 1; point <= others; point++) add(point, 0, 0, undefined);
  for (const [index, { from: a, to: b, lo, hi }] of limits.entries()) {
    if (lo !== Number.NEGATIVE_INFINITY) add(b, a, -lo, { type: 'limit', index, side: 'lo' });
    if (hi !== Number.POSITIVE_INFINITY) add(a, b, hi, { type: 'limit', index, side: 'hi' });
  }
  for (const [index, { from: a, to: b, lo, hi }] of links.entries()) {
    add(b, a, -lo, { type: 'link', index, side: 'lo' });
    add(a, b, hi, { type: 'link', index, side: 'hi' });
  }
  for (const [index, { point, after }] of joins.entries())
    for (const [place, { from: a, delay }] of after.entries())
      add(point, a, -delay, { type: 'join', index, after: place, side: 'not before' });
  const edges = parts.length;
  return {
    points: network.points,
    from: from.subarray(0, edges),
    to: to.subarray(0, edges),
    weight: weight.subarray(0, edges),
    parts,
  };
}

/** The edges as they point (`forth`), or turned about (`back`). */
export function adjacency(graph: DistanceGraph, direction: 'forth' | 'back'): Adjacency {
  const [source, sink] = direction === 'forth' ? [graph.from, graph.to] : [graph.to, graph.from];
  const first = new Int32Array(graph.points + 1);
  for (const point of source) first[point + 1] = at(first, point + 1) + 1;
  for (let point = 0; point < graph.points; point++) first[point + 1] = at(first, point + 1) + at(first, point);
  const next = first.slice();
  const edge = new Int32Array(source.length);
  const target = new Int32Array(source.length);
  const weight = new Float64Array(source.length);
  for (let id = 0; id < source.length; id++) {
    const point = at(source, id);
    const place = at(next, point);
    next[point] = place + 1;
    edge[place] = id;
    target[place] = at(sink, id);
    weight[place] = at(graph.weight, id);
  }
  return { first, edge, target, weight };
}

/** Instead of an edge: the distance is what the moment had to begin with. */
export const NONE = -1;

/**
 * Shortens `distance` along the edges until nothing gets shorter (Bellman 1958, Ford 1956). Moments are gone through up and down by
 * their numbers, only those that changed (after Yen, Q Appl Math 1970;27:526-530): in a network numbered as time goes, a few times.
 *
 * @param distance by moment, what is known to begin with; changed in place
 * @param by for each moment the edge that its distance came by; `NONE` for one that it had to begin with. Changed in place.
 * @param source by edge, the moment it leaves
 * @returns a moment on a cycle of `by`, whose weights sum to less than nothing; undefined when there is none
 */
export function shorten(
  edges: Adjacency,
  distance: Float64Array,
  by: Int32Array,
  source: Int32Array,
): number | undefined {
  const points = distance.length;
  const changed = new Uint8Array(points);
  for (let point = 0; point < points; point++) changed[point] = at(distance, point) < Number.POSITIVE_INFINITY ? 1 : 0;
  const seen = new Int32Array(points);
  for (let round = 0; ; round++) {
    const up = round % 2 === 0;
    let shorter = false;
    for (let step = 0; step < points; step++) {
      const point = up ? step : points - 1 - step;
      if (changed[point] === 0) continue;
      changed[point] = 0;
      const here = at(distance, point);
      const end = at(edges.first, point + 1);
      for (let place = at(edges.first, point); place < end; place++) {
        const target = at(edges.target, place);
        const length = here + at(edges.weight, place);
        if (length >= at(distance, target) - SAME_TIME) continue;
        distance[target] = length;
        by[target] = at(edges.edge, place);
        changed[target] = 1;
        shorter = true;
      }
    }
    if (!shorter) return undefined;
    const cycle = onCycle(by, source, seen);
    if (cycle !== undefined) return cycle;
  }
}

/** Goes back from every moment to what its distance came by; answers a moment that is met again. */
function onCycle(by: Int32Array, source: Int32Array, seen: Int32Array): number | undefined {
  seen.fill(0);
  for (let start = 0; start < by.length; start++) {
    let point = start;
    while (at(seen, point) === 0) {
      seen[point] = start + 1;
      const edge = at(by, point);
      if (edge === NONE) break;
      point = at(source, edge);
    }
    if (at(seen, point) === start + 1 && at(by, point) !== NONE) return point;
  }
  return undefined;
}

/** An element that is there: typed arrays of known length are read by numbers below it. */
export function at(values: Int32Array | Float64Array, index: number): number {
  return values[index] ?? Number.NaN;
}
