import { addEdge, type Edges, emptyLabels, growingEdges, type Labels, newEdge, newLabel } from './growing-graph.ts';
import { emptyHeap, type Heap, leastKey, pop, push } from './heap.ts';
import { END, type LabelledGraph, type Reason } from './labelled-graph.ts';
import { SAME_TIME } from './network.ts';
import type { Origin } from './origins.ts';

/** Which of what a node waits for keeps it from coming too early after `source`. */
export interface Choice {
  readonly node: number;
  readonly source: number;
  /** index into the node's origins */
  readonly origin: number;
}

/** What has to be kept by waiting: `node` comes `least` after `source` or, if `source` is a helper, when its stretch is over. */
export interface Waiting {
  readonly node: number;
  readonly source: number;
  /** seconds, not less than nothing */
  readonly least: number;
}

export type Propagation =
  | { readonly ok: true; readonly waits: readonly Waiting[] }
  /** a cycle of less than nothing, each edge beginning where the one before it ended, and the choices it hangs on */
  | { readonly ok: false; readonly cycle: readonly Reason[]; readonly choices: readonly Choice[]; readonly by: number };

/** In place of an origin: nothing keeps it. */
export const NONE_KEEPS = -1;

/** Chooses among the origins of `node` the one that is to keep it `least` after `source`. */
export type Chooser = (node: number, source: number, least: number) => number;

/**
 * Back-propagation from negative nodes (Morris, "Dynamic controllability and dispatchability relationships", CPAIOR 2014, LNCS
 * 8451:464-479, determineDC and DCbackprop): shortest ways back from each node that an edge of less than nothing leads to, until they
 * are worth something; there an edge is added. A node that is met on the way and is itself negative is done first. The network is
 * dynamically controllable, where one may act at the very moment at which one sees something, unless a node meets itself. Time
 * O(n³), in networks like chains far less.
 *
 * What is met with less than nothing on the way has to wait: with these the network can be dispatched (same paper).
 *
 * Ours is that an edge is not added when it says no more than the making of the network, or an edge that is there (`isKnown`): in a long
 * chain nearly all of them.
 *
 * @param order nodes in the order in which to begin; whatever the order, the answer is the same
 */
export function propagate(graph: LabelledGraph, order: Int32Array, choose: Chooser): Propagation {
  const run = beginRun(graph, choose);
  for (const node of order) {
    if (graph.negative[node] !== 1 || run.state[node] === DONE) continue;
    const failure = backFrom(run, node, 0);
    if (failure !== undefined) return failure;
  }
  const { labels } = run;
  const waits: Waiting[] = [];
  for (let label = 0; label < labels.size; label++) {
    const distance = labels.distance[label] as number;
    if (distance <= SAME_TIME)
      waits.push({
        node: labels.node[label] as number,
        source: labels.source[label] as number,
        least: Math.max(0, -distance),
      });
  }
  return { ok: true, waits };
}

const UNTOUCHED = 0;
const UNDER_WAY = 1;
const DONE = 2;

interface Run {
  readonly graph: LabelledGraph;
  readonly choose: Chooser;
  readonly state: Uint8Array;
  readonly edges: Edges;
  readonly labels: Labels;
  /** of edges that stand for a choice */
  readonly chosen: Map<number, { readonly choice: Choice; readonly reason: Reason }>;
  /** nodes under way, and for all but the first the label by which it was met */
  readonly path: { readonly source: number; readonly met: number }[];
  /** room to work in, by depth */
  readonly rooms: Room[];
}

interface Room {
  readonly heap: Heap;
  readonly distance: Float64Array;
  /** the first edge of the shortest way known, and the label that says how it goes on */
  readonly edge: Int32Array;
  readonly rest: Int32Array;
  readonly label: Int32Array;
  /** nodes that have a distance, and so have to be cleared */
  touched: number[];
}

function beginRun(graph: LabelledGraph, choose: Chooser): Run {
  return {
    graph,
    choose,
    state: new Uint8Array(graph.nodes),
    edges: growingEdges(graph),
    labels: emptyLabels(graph.edges),
    chosen: new Map(),
    path: [],
    rooms: [],
  };
}

type Failure = Extract<Propagation, { ok: false }>;

function backFrom(run: Run, source: number, depth: number, met = END): Failure | undefined {
  const { graph, edges, state } = run;
  state[source] = UNDER_WAY;
  run.path.push({ source, met });
  const room = roomAt(run, depth);
  const { heap, distance } = room;
  const own = source >= graph.points ? graph.helperLink[source - graph.points] : undefined;

  for (let edge = edges.head[source] as number; edge !== END; edge = edges.next[edge] as number) {
    const length = edges.weight[edge] as number;
    if (length >= -SAME_TIME) continue;
    const failure = reach(run, room, source, edge, length, END);
    if (failure !== undefined) return failure;
  }

  for (;;) {
    const key = leastKey(heap);
    const node = pop(heap);
    if (key === undefined || node === undefined) break;
    // An older way to a node that a shorter one was found to since, or that is done.
    if (key > (distance[node] as number) || room.label[node] !== END) continue;
    if (key >= -SAME_TIME && isKnown(graph, node, source, key)) continue;
    const label = newLabel(run.labels, node, source, key, room.edge[node] as number, room.rest[node] as number);
    room.label[node] = label;
    if (key >= -SAME_TIME) {
      addEdge(edges, node, source, key, label);
      continue;
    }
    if (graph.negative[node] === 1) {
      if (state[node] === UNDER_WAY) return fail(run, label, run.path.findIndex((one) => one.source === node) + 1);
      if (state[node] === UNTOUCHED) {
        const failure = backFrom(run, node, depth + 1, label);
        if (failure !== undefined) return failure;
      }
    }
    // Nothing comes before moment 0.
    if (node === 0) return fail(run, label, run.path.length, backTo(graph, source));
    const origins = graph.origins[node];
    if (origins !== undefined) {
      const edge = edgeOfChoice(run, room, node, source, key, origins);
      if (edge !== undefined) {
        const failure = reach(run, room, source, edge, key + (edges.weight[edge] as number), label);
        if (failure !== undefined) return failure;
      }
    }
    for (let edge = edges.head[node] as number; edge !== END; edge = edges.next[edge] as number) {
      const length = edges.weight[edge] as number;
      if (length < -SAME_TIME) continue;
      // That a stretch may be short does not help against waiting for its own end.
      const reason = graph.reasons[edge];
      if (own !== undefined && reason?.type === 'lower' && reason.link === own) continue;
      const failure = reach(run, room, source, edge, key + length, label);
      if (failure !== undefined) return failure;
    }
  }

  for (const node of room.touched) {
    distance[node] = Number.POSITIVE_INFINITY;
    room.label[node] = END;
  }
  room.touched = [];
  state[source] = DONE;
  run.path.pop();
  return undefined;
}

/** Whether it need not be said that `source` comes at most `most` after `node`. */
function isKnown(graph: LabelledGraph, node: number, source: number, most: number): boolean {
  if (graph.follows(node, source)) return true;
  for (let edge = graph.head[source] as number; edge !== END; edge = graph.next[edge] as number)
    if (graph.from[edge] === node && (graph.weight[edge] as number) <= most + SAME_TIME) return true;
  return false;
}

/** That a stretch which begins at moment 0 has begun there. */
function backTo(graph: LabelledGraph, helper: number): number {
  let edge = helper < graph.points ? END : (graph.head[0] as number);
  while (edge !== END && graph.from[edge] !== helper) edge = graph.next[edge] as number;
  return edge;
}

/** Notes a way to where `edge` begins, if it is shorter than what is known; `rest` is how it goes on from where the edge ends. */
function reach(run: Run, room: Room, source: number, edge: number, length: number, rest: number): Failure | undefined {
  const node = run.edges.from[edge] as number;
  if (node === source) {
    if (length >= -SAME_TIME) return undefined;
    const label = newLabel(run.labels, node, source, length, edge, rest);
    return fail(run, label, run.path.length);
  }
  const known = room.distance[node] as number;
  if (length >= known) return undefined;
  if (known === Number.POSITIVE_INFINITY) room.touched.push(node);
  room.distance[node] = length;
  room.edge[node] = edge;
  room.rest[node] = rest;
  push(room.heap, length, node);
  return undefined;
}

/** An edge to `node` from that of its origins which is to keep it; none where that is kept already. */
function edgeOfChoice(
  run: Run,
  room: Room,
  node: number,
  source: number,
  distance: number,
  origins: readonly Origin[],
): number | undefined {
  for (const { base, delay } of origins) {
    if (distance + delay >= -SAME_TIME && run.graph.follows(base, source)) return undefined;
    if (room.label[base] !== END && (room.distance[base] as number) <= distance + delay) return undefined;
  }
  const origin = run.choose(node, source, -distance);
  const chosen = origins[origin];
  if (chosen === undefined) return undefined;
  const { points, helperLink } = run.graph;
  const edge = newEdge(run.edges, chosen.base, chosen.delay, END);
  run.chosen.set(edge, {
    choice: { node, source, origin },
    reason: { type: 'forth', origin: chosen, link: node >= points ? helperLink[node - points] : undefined },
  });
  return edge;
}

function roomAt(run: Run, depth: number): Room {
  const known = run.rooms[depth];
  if (known !== undefined) return known;
  const { nodes } = run.graph;
  const room: Room = {
    heap: emptyHeap(),
    distance: new Float64Array(nodes).fill(Number.POSITIVE_INFINITY),
    edge: new Int32Array(nodes),
    rest: new Int32Array(nodes),
    label: new Int32Array(nodes).fill(END),
    touched: [],
  };
  run.rooms[depth] = room;
  return room;
}

/**
 * The cycle that closes with `label`, by way of the nodes under way from the one at `first` on, and the edge `last`. Edges that were added stand for the ways
 * they were found by, and those for others: written out, the cycle consists of what is in the network (as in Hunsberger and Posenato, "A
 * faster algorithm for finding negative cycles in simple temporal networks with uncertainty", TIME 2024, LIPIcs 318, 9). An edge may
 * come more than once, in the worst case as often as there are sets of stretches.
 */
function fail(run: Run, label: number, first: number, last = END): Failure {
  const { edges, labels, graph } = run;
  const around = [
    label,
    ...run.path
      .slice(first)
      .map(({ met }) => met)
      .reverse(),
  ];
  const cycle: Reason[] = [];
  const choices: Choice[] = [];
  const left = [...around].reverse();
  for (let next = left.pop(); next !== undefined; next = left.pop()) {
    if (next === END) continue;
    const edge = labels.edge[next] as number;
    left.push(labels.rest[next] as number);
    const chosen = run.chosen.get(edge);
    const reason = graph.reasons[edge];
    if (chosen !== undefined) {
      choices.push(chosen.choice);
      cycle.push(chosen.reason);
    } else if (reason !== undefined) cycle.push(reason);
    else left.push(edges.label[edge] as number);
  }
  const closing = graph.reasons[last];
  if (closing !== undefined) cycle.push(closing);
  const rest = closing === undefined ? 0 : (graph.weight[last] as number);
  const by = around.reduce((sum, one) => sum - (labels.distance[one] as number), -rest);
  return { ok: false, cycle, choices, by };
}
