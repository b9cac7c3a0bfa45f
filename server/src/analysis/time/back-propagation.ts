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
  /** seconds, more than nothing */
  readonly least: number;
}

export type Propagation =
  | { readonly ok: true; readonly waits: readonly Waiting[] }
  /** a cycle of less than nothing, each edge beginning where the one before it ended, and the choices it hangs on */
  | { readonly ok: false; readonly cycle: readonly Reason[]; readonly choices: readonly Choice[]; readonly by: number };

/** Chooses among the origins of `node` the one that is to keep it `least` after `source`. */
export type Chooser = (node: number, source: number, least: number) => number;

/**
 * Back-propagation from negative nodes (Morris, "Dynamic controllability and dispatchability relationships", CPAIOR 2014, LNCS
 * 8451:464-479, determineDC and DCbackprop): shortest ways back from each node that an edge of less than nothing leads to, until they
 * are worth something; there an edge is added. A node that is met on the way and is itself negative is done first. The network is
 * dynamically controllable, where one may act at the very moment at which one sees something, unless a node meets itself. Time
 * O(n³), in networks like chains far less.
 *
 * What is met with less than nothing on the way has to wait: with these the network can be dispatched (same paper, section 5).
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
    if (distance < -SAME_TIME)
      waits.push({ node: labels.node[label] as number, source: labels.source[label] as number, least: -distance });
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
  /** nodes under way, and for all but the first the label by which it was met */
  readonly path: { readonly source: number; readonly met: number }[];
  /** room to work in, by depth */
  readonly rooms: Room[];
}

/** Edges that grow: those of the graph, then those added. `label` says which way an added one stands for. */
interface Edges {
  size: number;
  readonly head: Int32Array;
  next: Int32Array;
  from: Int32Array;
  weight: Float64Array;
  label: Int32Array;
  /** of those that stand for a choice */
  readonly chosen: Map<number, { readonly choice: Choice; readonly reason: Reason }>;
}

/** One for each node met from a source: the shortest way there begins with `edge` and goes on as `rest` says. */
interface Labels {
  size: number;
  node: Int32Array;
  source: Int32Array;
  distance: Float64Array;
  edge: Int32Array;
  rest: Int32Array;
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
  const spare = 2 * graph.edges + 16;
  const { nodes, edges } = graph;
  return {
    graph,
    choose,
    state: new Uint8Array(nodes),
    edges: {
      size: edges,
      head: graph.head.slice(),
      next: longer(graph.next, spare),
      from: longer(graph.from, spare),
      weight: longer(graph.weight, spare),
      label: new Int32Array(spare).fill(END),
      chosen: new Map(),
    },
    labels: {
      size: 0,
      node: new Int32Array(spare),
      source: new Int32Array(spare),
      distance: new Float64Array(spare),
      edge: new Int32Array(spare),
      rest: new Int32Array(spare),
    },
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
    const label = newLabel(run.labels, node, source, key, room.edge[node] as number, room.rest[node] as number);
    room.label[node] = label;
    if (key >= -SAME_TIME) {
      addEdge(edges, node, source, key, label);
      continue;
    }
    if (node === 0) return fail(run, label, run.path.length);
    if (graph.negative[node] === 1) {
      if (state[node] === UNDER_WAY) return fail(run, label, run.path.findIndex((one) => one.source === node) + 1);
      if (state[node] === UNTOUCHED) {
        const failure = backFrom(run, node, depth + 1, label);
        if (failure !== undefined) return failure;
      }
    }
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
    if (base === source && distance + delay >= -SAME_TIME) return undefined;
    if (room.label[base] !== END && (room.distance[base] as number) <= distance + delay) return undefined;
  }
  const origin = run.choose(node, source, -distance);
  const chosen = origins[origin];
  if (chosen === undefined) return undefined;
  const { points, helperLink } = run.graph;
  const edge = newEdge(run.edges, chosen.base, chosen.delay, END);
  run.edges.chosen.set(edge, {
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

function addEdge(edges: Edges, from: number, to: number, weight: number, label: number): void {
  const edge = newEdge(edges, from, weight, label);
  edges.next[edge] = edges.head[to] as number;
  edges.head[to] = edge;
}

function newEdge(edges: Edges, from: number, weight: number, label: number): number {
  const edge = edges.size++;
  if (edge >= edges.from.length) {
    const room = 2 * edges.from.length;
    edges.next = longer(edges.next, room);
    edges.from = longer(edges.from, room);
    edges.weight = longer(edges.weight, room);
    edges.label = longer(edges.label, room);
  }
  edges.from[edge] = from;
  edges.weight[edge] = weight;
  edges.label[edge] = label;
  return edge;
}

function newLabel(labels: Labels, node: number, source: number, distance: number, edge: number, rest: number): number {
  const label = labels.size++;
  if (label >= labels.node.length) {
    const room = 2 * labels.node.length;
    labels.node = longer(labels.node, room);
    labels.source = longer(labels.source, room);
    labels.distance = longer(labels.distance, room);
    labels.edge = longer(labels.edge, room);
    labels.rest = longer(labels.rest, room);
  }
  labels.node[label] = node;
  labels.source[label] = source;
  labels.distance[label] = distance;
  labels.edge[label] = edge;
  labels.rest[label] = rest;
  return label;
}

function longer(values: Int32Array, room: number): Int32Array;
function longer(values: Float64Array, room: number): Float64Array;
function longer(values: Int32Array | Float64Array, room: number): Int32Array | Float64Array {
  const copy = values instanceof Int32Array ? new Int32Array(room) : new Float64Array(room);
  copy.set(values);
  return copy;
}

/**
 * The cycle that closes with `label`, by way of the nodes under way from the one at `first` on. Edges that were added stand for the ways
 * they were found by, and those for others: written out, the cycle consists of what is in the network (as in Hunsberger and Posenato, "A
 * faster algorithm for finding negative cycles in simple temporal networks with uncertainty", TIME 2024, LIPIcs 318, 9). An edge may
 * come more than once, in the worst case as often as there are sets of stretches.
 */
function fail(run: Run, label: number, first: number): Failure {
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
    const chosen = edges.chosen.get(edge);
    const reason = graph.reasons[edge];
    if (chosen !== undefined) {
      choices.push(chosen.choice);
      cycle.push(chosen.reason);
    } else if (reason !== undefined) cycle.push(reason);
    else left.push(edges.label[edge] as number);
  }
  const by = around.reduce((sum, one) => sum - (labels.distance[one] as number), 0);
  return { ok: false, cycle, choices, by };
}
