import { type Chooser, NONE_KEEPS, type Propagation, propagate, type Waiting } from './back-propagation.ts';
import { consistency } from './consistency.ts';
import { adjacency, at, distanceGraph } from './distance-graph.ts';
import { partsOf } from './explanation.ts';
import { emptyHeap, leastKey, pop, push } from './heap.ts';
import { type LabelledGraph, labelledGraph } from './labelled-graph.ts';
import { type Part, SAME_TIME, type TimeNetwork } from './network.ts';
import { isFixed } from './origins.ts';

export type Control =
  /** what has to wait for what, and then every limit is kept */
  | { readonly ok: true; readonly graph: LabelledGraph; readonly waits: readonly Waiting[] }
  | {
      readonly ok: false;
      readonly cycle: readonly Part[];
      readonly by: number;
      /** whether no choice is left to try */
      readonly exhausted: boolean;
    };

/** How many choices of what keeps a join from coming too early are tried. */
export const MOST_ATTEMPTS = 64;

/** How many chosen moments are tried as such that come at once. */
const MOST_EARLY = 4;

/**
 * Whether the limits of a consistent network can be kept, and how.
 *
 * For each pair of a join and a moment that it has to come after it is settled beforehand which of what the join waits for keeps that:
 * the surest at first, and where that fails others. Where all fail, and it is a chosen moment that the join has to come after, that moment
 * is tried as one that comes at once when it may: then all that it waits for has to be kept, but each perhaps by another. Both are
 * sound: what is kept so is kept. What the team could only keep by choosing in yet other ways is not found.
 *
 * @param earliest by moment, its earliest time when links are read as limits and joins as "not before"
 * @param most how many choices are tried
 */
export function control(network: TimeNetwork, earliest: Float64Array, most = MOST_ATTEMPTS): Control {
  const settled = settle(network, earliest, most);
  if (settled.ok || !network.links.some((link) => !isFixed(link))) return settled;
  for (const moment of settled.held.slice(0, MOST_EARLY)) {
    const early = withEarly(network, earliest, moment);
    const judged = early && consistency(early);
    if (!early || !judged?.consistent) continue;
    const outcome = settle(early, judged.earliest, most);
    if (outcome.ok) return outcome;
  }
  return settled;
}

interface Unsettled extends Extract<Control, { ok: false }> {
  /** chosen moments that some join has to come after, as far as its choice was part of a failure */
  readonly held: readonly number[];
}

function settle(
  network: TimeNetwork,
  earliest: Float64Array,
  most: number,
): Extract<Control, { ok: true }> | Unsettled {
  const graph = labelledGraph(network);
  const order = latestFirst(graph, earliest);
  const guess = chooser(graph, earliest);
  const keyOf = (node: number, source: number): number => node * graph.nodes + source;
  let failure: Extract<Propagation, { ok: false }> | undefined;
  let attempts = 0;
  const held = new Set<number>();
  const chosen = chosenMoments(network);
  const open: ReadonlyMap<number, number>[] = [new Map()];
  for (let settled = open.pop(); settled !== undefined; settled = open.pop()) {
    if (++attempts > most) break;
    const known = settled;
    const choose: Chooser = (node, source, least) => known.get(keyOf(node, source)) ?? guess(node, source, least);
    const outcome = propagate(graph, order, choose);
    if (outcome.ok) return { ok: true, graph, waits: outcome.waits };
    if (failure === undefined || outcome.by < failure.by) failure = outcome;
    // One of the choices that the cycle hangs on has to be another: the first; or the second, with the first as it is; and so on.
    let before = known;
    const others: ReadonlyMap<number, number>[] = [];
    for (const { node, source, origin } of outcome.choices) {
      if (chosen[source] === 1) held.add(source);
      const key = keyOf(node, source);
      if (before.has(key)) continue;
      const count = graph.origins[node]?.length ?? 0;
      for (let other = 0; other < count; other++) if (other !== origin) others.push(new Map(before).set(key, other));
      before = new Map(before).set(key, origin);
    }
    open.push(...others.reverse());
  }
  const { cycle = [], by = 0 } = failure ?? {};
  return { ok: false, cycle: partsOf(network, cycle, earliest), by, exhausted: attempts <= most, held: [...held] };
}

/**
 * The network with a chosen moment that comes at once when it may: when all is over that it has to come after by what other moments ask
 * for, those aside that have to come after it themselves. None if it would not have to wait for anything.
 */
function withEarly(network: TimeNetwork, earliest: Float64Array, moment: number): TimeNetwork | undefined {
  const graph = labelledGraph(network);
  const guess = chooser(graph, earliest);
  const outcome = propagate(graph, latestFirst(graph, earliest), (node, source, least) =>
    source === moment ? NONE_KEEPS : guess(node, source, least),
  );
  if (!outcome.ok) return undefined;
  const after = outcome.waits
    .filter((wait) => wait.node === moment)
    // Where it has to wait until a stretch is over or must have lasted long enough, it waits for its end.
    .map(({ source, least }) => {
      const { to: end } = (source >= graph.points ? linkOf(graph, source) : undefined) ?? {};
      return end === undefined ? { from: source, delay: least } : { from: end, delay: 0 };
    })
    .filter(({ from }) => !graph.follows(from, moment));
  return after.length === 0 ? undefined : { ...network, joins: [...network.joins, { point: moment, after }] };
}

/** By moment: 1 where it is neither the beginning nor something's end nor a join. */
function chosenMoments({ points, links, joins }: TimeNetwork): Uint8Array {
  const chosen = new Uint8Array(points).fill(1, 1);
  for (const { to } of links) chosen[to] = 0;
  for (const { point } of joins) chosen[point] = 0;
  return chosen;
}

/** Latest first: then what is met on the way back is mostly done already. */
function latestFirst(graph: LabelledGraph, earliest: Float64Array): Int32Array {
  const times = new Float64Array(graph.nodes);
  times.set(earliest);
  for (let node = graph.points; node < graph.nodes; node++) times[node] = timeOfHelper(graph, node, earliest);
  return Int32Array.from(times.keys()).sort((a, b) => at(times, b) - at(times, a));
}

function timeOfHelper(graph: LabelledGraph, node: number, earliest: Float64Array): number {
  const { from = 0, lo = 0 } = linkOf(graph, node) ?? {};
  return at(earliest, from) + lo;
}

function linkOf(graph: LabelledGraph, helper: number): TimeNetwork['links'][number] | undefined {
  return graph.network.links[graph.helperLink[helper - graph.points] ?? -1];
}

/**
 * Chooses what comes surest: with the most to spare, or the least missing, of how long after `source` it has to come, by the shortest
 * there can be between them, links being read as limits.
 */
function chooser(graph: LabelledGraph, earliest: Float64Array): Chooser {
  const known = new Map<number, Float64Array>();
  let edges: ReturnType<typeof adjacency> | undefined;
  const latestAfter = (source: number): Float64Array => {
    const before = known.get(source);
    if (before !== undefined) return before;
    edges ??= adjacency(distanceGraph(graph.network), 'back');
    const distances = shortestTo(edges, source, earliest);
    known.set(source, distances);
    return distances;
  };
  return (node, source, least) => {
    const link = source >= graph.points ? linkOf(graph, source) : undefined;
    const after = latestAfter(link?.from ?? source);
    let best = 0;
    let most = Number.NEGATIVE_INFINITY;
    for (const [index, { base, delay }] of (graph.origins[node] ?? []).entries()) {
      const spare = delay - least - at(after, base) - (link?.lo ?? 0);
      if (spare <= most + SAME_TIME) continue;
      most = spare;
      best = index;
    }
    return best;
  };
}

/** By moment, the most that `target` can come after it (Dijkstra 1959 on weights made positive by `earliest`, after Johnson 1977). */
function shortestTo(edges: ReturnType<typeof adjacency>, target: number, earliest: Float64Array): Float64Array {
  const distance = new Float64Array(earliest.length).fill(Number.POSITIVE_INFINITY);
  const heap = emptyHeap();
  distance[target] = 0;
  push(heap, 0, target);
  for (;;) {
    const key = leastKey(heap);
    const moment = pop(heap);
    if (key === undefined || moment === undefined) break;
    if (key > at(distance, moment)) continue;
    const end = at(edges.first, moment + 1);
    for (let place = at(edges.first, moment); place < end; place++) {
      const other = at(edges.target, place);
      const slack = at(edges.weight, place) + at(earliest, other) - at(earliest, moment);
      const length = key + Math.max(0, slack);
      if (length >= at(distance, other)) continue;
      distance[other] = length;
      push(heap, length, other);
    }
  }
  for (const [moment, length] of distance.entries())
    distance[moment] = length + at(earliest, target) - at(earliest, moment);
  return distance;
}
