import { type Chooser, type Propagation, propagate, type Waiting } from './back-propagation.ts';
import { consistency } from './consistency.ts';
import { adjacency, at, distanceGraph } from './distance-graph.ts';
import { partsOf } from './explanation.ts';
import { emptyHeap, leastKey, pop, push } from './heap.ts';
import { type LabelledGraph, labelledGraph } from './labelled-graph.ts';
import { type Part, SAME_TIME, type TimeNetwork } from './network.ts';

export type Verdict =
  | { readonly answer: 'holds' }
  | {
      readonly answer: 'always breaks' | 'can break';
      /** what cannot all be kept, in the order in which it happens */
      readonly cycle: readonly Part[];
      /** seconds by which it falls short, positive */
      readonly by: number;
    };

/**
 * Whether a team that decides as it goes, and sees what has turned out so far, keeps every limit of `network`.
 *
 * - *holds*: however the links turn out (dynamic controllability; one may act at the very moment at which one sees something).
 * - *always breaks*: however they turn out, even if the team could choose them.
 * - *can break*: neither.
 *
 * Without joins the answer is exact, by Morris's algorithm (see `propagate`). A join is not chosen: it cannot be held back. A limit on how
 * late it may come is one on each of what it waits for, exactly. A limit on how early it may come is kept if one of them keeps it; which one
 * is settled beforehand for each pair of a join and a moment that it has to come after, and where the first choice fails others are tried.
 * So with joins *holds* is always true, and so is *always breaks*; *can break* is too strict where the team would have to choose anew by
 * what it sees, or where more than `MOST_ATTEMPTS` choices would have to be tried.
 *
 * How the weights of a cycle's parts sum to `-by`: see `partsOf` for *can break*. For *always breaks* links are read as limits: their `hi`
 * counts as such, and their `lo` less than nothing.
 *
 * @throws RangeError when a moment waits for itself
 */
export function judgeNetwork(network: TimeNetwork): Verdict {
  const judged = consistency(network);
  if (!judged.consistent) return { answer: 'always breaks', cycle: judged.cycle, by: judged.by };
  const { earliest } = judged;
  const outcome = control(network, earliest);
  if (outcome.ok) return { answer: 'holds' };
  return (
    contradiction(network, earliest) ?? {
      answer: 'can break',
      cycle: outcome.cycle,
      by: outcome.by,
    }
  );
}

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

/**
 * Whether the limits of a consistent network can be kept, and how.
 *
 * @param earliest by moment, its earliest time when links are read as limits and joins as "not before"
 */
export function control(network: TimeNetwork, earliest: Float64Array): Control {
  const graph = labelledGraph(network);
  const order = latestFirst(graph, earliest);
  const guess = chooser(graph, earliest);
  const keyOf = (node: number, source: number): number => node * graph.nodes + source;
  let failure: Extract<Propagation, { ok: false }> | undefined;
  let attempts = 0;
  const open: ReadonlyMap<number, number>[] = [new Map()];
  for (let settled = open.pop(); settled !== undefined; settled = open.pop()) {
    if (++attempts > MOST_ATTEMPTS) break;
    const known = settled;
    const choose: Chooser = (node, source, least) => known.get(keyOf(node, source)) ?? guess(node, source, least);
    const outcome = propagate(graph, order, choose);
    if (outcome.ok) return { ok: true, graph, waits: outcome.waits };
    failure ??= outcome;
    // One of the choices that the cycle hangs on has to be another: the first; or the second, with the first as it is; and so on.
    let before = known;
    const others: ReadonlyMap<number, number>[] = [];
    for (const { node, source, origin } of outcome.choices) {
      const key = keyOf(node, source);
      if (before.has(key)) continue;
      const count = graph.origins[node]?.length ?? 0;
      for (let other = 0; other < count; other++) if (other !== origin) others.push(new Map(before).set(key, other));
      before = new Map(before).set(key, origin);
    }
    open.push(...others.reverse());
  }
  const { cycle = [], by = 0 } = failure ?? {};
  return { ok: false, cycle: partsOf(network, cycle, earliest), by, exhausted: attempts <= MOST_ATTEMPTS };
}

/**
 * What breaks even if every link could be chosen, because joins cannot be held back. Where nothing turns out there is, if there are times
 * that keep all limits, one choice for each join: that by which it comes when it comes. So trying all choices tells.
 */
function contradiction(network: TimeNetwork, earliest: Float64Array): Verdict | undefined {
  const { limits, links, joins } = network;
  if (joins.length === 0) return undefined;
  const outcome = control({ ...network, limits: [...limits, ...links], links: [] }, earliest);
  if (outcome.ok || !outcome.exhausted) return undefined;
  const cycle = outcome.cycle.map(
    (part): Part =>
      part.type === 'limit' && part.index >= limits.length
        ? { type: 'link', index: part.index - limits.length, side: part.side }
        : part,
  );
  return { answer: 'always breaks', cycle, by: outcome.by };
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
