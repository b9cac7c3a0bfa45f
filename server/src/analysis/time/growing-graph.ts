import { END, type LabelledGraph } from './labelled-graph.ts';

/** Edges that grow: those of the graph, then those added. `label` says which way an added one stands for. */
export interface Edges {
  size: number;
  readonly head: Int32Array;
  next: Int32Array;
  from: Int32Array;
  weight: Float64Array;
  label: Int32Array;
}

/** One for each node met from a source: the shortest way there begins with `edge` and goes on as `rest` says. */
export interface Labels {
  size: number;
  node: Int32Array;
  source: Int32Array;
  distance: Float64Array;
  edge: Int32Array;
  rest: Int32Array;
}

export function growingEdges({ edges, head, next, from, weight }: LabelledGraph): Edges {
  const room = 2 * edges + 16;
  return {
    size: edges,
    head: head.slice(),
    next: longer(next, room),
    from: longer(from, room),
    weight: longer(weight, room),
    label: new Int32Array(room).fill(END),
  };
}

export function emptyLabels(expected: number): Labels {
  const room = 2 * expected + 16;
  return {
    size: 0,
    node: new Int32Array(room),
    source: new Int32Array(room),
    distance: new Float64Array(room),
    edge: new Int32Array(room),
    rest: new Int32Array(room),
  };
}

export function addEdge(edges: Edges, from: number, to: number, weight: number, label: number): void {
  const edge = newEdge(edges, from, weight, label);
  edges.next[edge] = edges.head[to] as number;
  edges.head[to] = edge;
}

export function newEdge(edges: Edges, from: number, weight: number, label: number): number {
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

export function newLabel(
  labels: Labels,
  node: number,
  source: number,
  distance: number,
  edge: number,
  rest: number,
): number {
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
