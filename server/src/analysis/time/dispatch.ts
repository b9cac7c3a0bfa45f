import { consistency } from './consistency.ts';
import { type Control, control } from './controllability.ts';
import { emptyHeap, leastKey, pop, push } from './heap.ts';
import { type Part, SAME_TIME, type TimeNetwork } from './network.ts';

/** Plays a network, given how long each link takes: a link is asked for as it begins, and nothing is done by it before it is over. */
export type Strategy = (durationOf: (link: number) => number) => Float64Array;

/** Times of all moments when the team follows its strategy and stretches turn out so; see `strategyOf`. */
export function runNetwork(network: TimeNetwork, durationOf: (link: number) => number): Float64Array {
  return strategyOf(network)(durationOf);
}

/** Indices of the limits that these times do not keep. */
export function brokenLimits(network: TimeNetwork, times: Float64Array): readonly number[] {
  return network.limits.flatMap(({ from, to, lo, hi }, index) => {
    const between = (times[to] ?? Number.NaN) - (times[from] ?? Number.NaN);
    return between >= lo - SAME_TIME && between <= hi + SAME_TIME ? [] : [index];
  });
}

/**
 * How the team plays a network: every chosen moment as early as it may be, given what was seen so far.
 *
 * What has to wait for what comes of `control`: each chosen moment waits until so long after another, or until so long after a stretch
 * could first have ended or else for its end, whichever is first. Played so, early or late, a controllable network keeps every limit
 * (dispatchability: Morris, CPAIOR 2014, LNCS 8451:464-479; execution in real time: Hunsberger and Posenato, "Foundations of
 * dispatchability for simple temporal networks with uncertainty", ICAART 2024).
 *
 * In a network that is not controllable, limits are given up until it is: of each cycle that cannot be kept the limit that ends last gives
 * way, by no more than it has to. So such a run keeps what it can, and breaks what it breaks late.
 *
 * @throws RangeError when a moment waits for itself
 */
export function strategyOf(network: TimeNetwork): Strategy {
  return playing(network, waitsOf(network));
}

type Waits = Extract<Control, { ok: true }>;

/** A limit that was loosened this often is given up. */
const MOST_LOOSENED = 8;

function waitsOf(network: TimeNetwork): Waits {
  const limits = [...network.limits];
  const loosened = new Int32Array(limits.length);
  const never = Number.POSITIVE_INFINITY;
  for (;;) {
    const loose: TimeNetwork = { ...network, limits };
    const judged = consistency(loose);
    const outcome = judged.consistent ? control(loose, judged.earliest) : judged;
    if ('ok' in outcome && outcome.ok) return outcome;
    const index = givesWay(outcome.cycle, loosened);
    const limit = index === undefined ? undefined : limits[index.limit];
    if (index === undefined || limit === undefined)
      // Only limits stand against each other.
      throw new Error('what cannot be kept has no limit in it');
    const times = (loosened[index.limit] ?? 0) + 1;
    loosened[index.limit] = times;
    const by = times > MOST_LOOSENED ? never : outcome.by / index.often;
    limits[index.limit] = index.side === 'lo' ? { ...limit, lo: limit.lo - by } : { ...limit, hi: limit.hi + by };
  }
}

/** The limit of a cycle that was loosened most already or else ends last, and how often that side of it is in the cycle. */
function givesWay(
  cycle: readonly Part[],
  loosened: Int32Array,
): { readonly limit: number; readonly side: 'lo' | 'hi'; readonly often: number } | undefined {
  let last: Extract<Part, { type: 'limit' }> | undefined;
  for (const part of cycle) {
    if (part.type === 'limit' && (last === undefined || (loosened[part.index] ?? 0) >= (loosened[last.index] ?? 0)))
      last = part;
  }
  if (last === undefined) return undefined;
  const { index: limit, side } = last;
  const often = cycle.filter((part) => part.type === 'limit' && part.index === limit && part.side === side).length;
  return { limit, side, often };
}

/** What one moment means for another: `after` it, `to` may come; or, if this is a timer, the wait is over. */
interface Consequence {
  /** the moment that waits */
  readonly to: number;
  readonly after: number;
  /** index of a wait that is over by whichever comes first; undefined for one that only this ends */
  readonly wait: number | undefined;
}

/** Plays event by event, in the order of time. */
function playing(network: TimeNetwork, { graph, waits }: Waits): Strategy {
  const { points, links, joins } = network;
  const given = new Uint8Array(points);
  const awaited = new Int32Array(points);
  const consequences: Consequence[][] = Array.from({ length: points }, () => []);
  const linksFrom: number[][] = Array.from({ length: points }, () => []);
  const consequence = (of: number, one: Consequence): void => {
    consequences[of]?.push(one);
  };
  const hold = (moment: number): void => {
    awaited[moment] = (awaited[moment] ?? 0) + 1;
  };

  given[0] = 1;
  for (const [index, { from, to }] of links.entries()) {
    given[to] = 1;
    hold(to);
    linksFrom[from]?.push(index);
  }
  for (const { point, after } of joins) {
    given[point] = 1;
    for (const { from, delay } of after) {
      hold(point);
      consequence(from, { to: point, after: delay, wait: undefined });
    }
  }
  for (const [wait, { node, source, least }] of waits.entries()) {
    if (node >= points || given[node] === 1) continue;
    hold(node);
    if (source < points) {
      consequence(source, { to: node, after: least, wait: undefined });
      continue;
    }
    const { from = 0, to = 0, lo = 0 } = links[graph.helperLink[source - points] ?? -1] ?? {};
    consequence(from, { to: node, after: lo + least, wait });
    consequence(to, { to: node, after: 0, wait });
  }

  return (durationOf) => {
    const times = new Float64Array(points).fill(Number.NaN);
    const left = awaited.slice();
    const over = new Set<number>();
    const due: Consequence[] = [];
    const heap = emptyHeap();
    const come = (moment: number, now: number): void => {
      times[moment] = now;
      for (const one of consequences[moment] ?? []) push(heap, now + one.after, due.push(one) - 1);
      for (const link of linksFrom[moment] ?? [])
        push(heap, now + durationOf(link), due.push({ to: links[link]?.to ?? 0, after: 0, wait: undefined }) - 1);
    };
    for (let moment = 0; moment < points; moment++) if (left[moment] === 0) come(moment, 0);
    for (;;) {
      const now = leastKey(heap);
      const one = due[pop(heap) ?? -1];
      if (now === undefined || one === undefined) return times;
      if (one.wait !== undefined) {
        if (over.has(one.wait)) continue;
        over.add(one.wait);
      }
      const still = (left[one.to] ?? 0) - 1;
      left[one.to] = still;
      if (still === 0) come(one.to, now);
    }
  };
}
