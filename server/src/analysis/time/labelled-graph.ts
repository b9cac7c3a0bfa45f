import { SAME_TIME, type TimeNetwork } from './network.ts';
import { isFixed, type Origin, originsOf } from './origins.ts';
import { precedenceOf } from './precedence.ts';

/**
 * The labelled distance graph of a network in normal form (Morris, "Dynamic controllability and dispatchability relationships", CPAIOR
 * 2014, LNCS 8451:464-479). An edge `from -> to` of weight `w` says `t[to] - t[from] <= w`.
 *
 * Nodes are the moments and, after them, one *helper* for each stretch of uncertain length: the moment from which it can end. A
 * lower-case edge leads from the helper to the end (weight 0: it may be over at once), an upper-case edge from the end to the helper
 * (weight `lo - hi`: it may take all it can). Stretches of one length and joins are not in the graph but written out: what limits how
 * late a join may be limits each of what it waits for, and is written so. What limits how *early* a join may be has to be kept by one of
 * what it waits for; which, is chosen when it matters, and so such a join, and a helper whose stretch begins at one, has `origins` in
 * place of an edge that leads there.
 */
export interface LabelledGraph {
  readonly network: TimeNetwork;
  /** number of moments; `nodes - points` helpers follow */
  readonly points: number;
  readonly nodes: number;
  /** by node: what it is the latest of, when that is more than one */
  readonly origins: readonly (readonly Origin[] | undefined)[];
  /** by moment: what settles it */
  readonly settledBy: readonly (readonly Origin[])[];
  /** by helper, less `points`: its link */
  readonly helperLink: Int32Array;
  /** edges, of which those into a node are a chain from `head[node]` along `next`, up to `END` */
  readonly edges: number;
  readonly head: Int32Array;
  readonly next: Int32Array;
  readonly from: Int32Array;
  readonly weight: Float64Array;
  readonly reasons: readonly Reason[];
  /** by node: whether an edge of less than nothing leads there */
  readonly negative: Uint8Array;
  /** whether a node comes after another, or with it, whatever is chosen and whatever turns out */
  readonly follows: (node: number, other: number) => boolean;
}

/** Why an edge is there. */
export type Reason =
  | {
      readonly type: 'limit';
      readonly index: number;
      readonly side: 'lo' | 'hi';
      /** of the moment that comes first along the edge, and of the other */
      readonly source: Origin;
      readonly target: Origin;
    }
  | { readonly type: 'lower'; readonly link: number }
  | { readonly type: 'upper'; readonly link: number }
  /** to a helper, or a join, from what it waits for */
  | { readonly type: 'forth'; readonly origin: Origin; readonly link: number | undefined }
  /** from a helper to what its stretch waits for */
  | { readonly type: 'back'; readonly origin: Origin; readonly link: number };

export const END = -1;

export function labelledGraph(network: TimeNetwork): LabelledGraph {
  const { points, limits, links } = network;
  const settledBy = originsOf(network);
  const uncertain = links.flatMap((link, index) => (isFixed(link) ? [] : [index]));
  const nodes = points + uncertain.length;
  const origins: (readonly Origin[] | undefined)[] = new Array(nodes).fill(undefined);
  for (const [moment, all] of settledBy.entries()) if (all.length > 1) origins[moment] = all;
  const from: number[] = [];
  const next: number[] = [];
  const weight: number[] = [];
  const reasons: Reason[] = [];
  const head = new Int32Array(nodes).fill(END);
  const negative = new Uint8Array(nodes);
  const add = (source: number, target: number, length: number, reason: Reason): void => {
    from.push(source);
    weight.push(length);
    next.push(head[target] ?? END);
    head[target] = reasons.push(reason) - 1;
    if (length < -SAME_TIME) negative[target] = 1;
  };

  /** `t[target] - t[source] <= length`, where `target` is any moment: then all that settles it is so limited. */
  const limit = (source: number, target: number, length: number, index: number, side: 'lo' | 'hi'): void => {
    const one = settledBy[source]?.length === 1 ? settledBy[source][0] : undefined;
    const begin: Origin = one ?? { base: source, delay: 0, step: undefined, before: undefined };
    for (const origin of settledBy[target] ?? []) {
      const reason: Reason = { type: 'limit', index, side, source: begin, target: origin };
      add(begin.base, origin.base, begin.delay + length - origin.delay, reason);
    }
  };
  for (const [index, { from: a, to: b, lo, hi }] of limits.entries()) {
    if (hi !== Number.POSITIVE_INFINITY) limit(a, b, hi, index, 'hi');
    if (lo !== Number.NEGATIVE_INFINITY) limit(b, a, -lo, index, 'lo');
  }

  for (const [place, link] of uncertain.entries()) {
    const { from: beginning = 0, to = 0, lo = 0, hi = 0 } = links[link] ?? {};
    const helper = points + place;
    add(helper, to, 0, { type: 'lower', link });
    add(to, helper, lo - hi, { type: 'upper', link });
    const all = (settledBy[beginning] ?? []).map((origin) => ({ ...origin, delay: origin.delay + lo }));
    if (all.length > 1) origins[helper] = all;
    for (const origin of all) {
      if (all.length === 1) add(origin.base, helper, origin.delay, { type: 'forth', origin, link });
      add(helper, origin.base, -origin.delay, { type: 'back', origin, link });
    }
  }

  const precedes = precedenceOf(network);
  const beginning = (helper: number): number => links[uncertain[helper - points] ?? -1]?.from ?? 0;
  const end = (helper: number): number => links[uncertain[helper - points] ?? -1]?.to ?? 0;

  return {
    network,
    points,
    nodes,
    origins,
    settledBy,
    helperLink: Int32Array.from(uncertain),
    edges: reasons.length,
    head,
    next: Int32Array.from(next),
    from: Int32Array.from(from),
    weight: Float64Array.from(weight),
    reasons,
    negative,
    follows: (node, other) =>
      node === other || precedes(other < points ? other : end(other), node < points ? node : beginning(node)),
  };
}
