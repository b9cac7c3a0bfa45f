import { consistency } from './consistency.ts';
import { type Control, control, MOST_ATTEMPTS } from './control.ts';
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
 * In a network that is not controllable, limits are loosened until it is: of each cycle that cannot be kept the limit that ends last gives
 * way, by little. So where a run breaks a limit it is by little, and late; but it may break one that could just have been kept.
 *
 * @throws RangeError when a moment waits for itself
 */
export function strategyOf(network: TimeNetwork): Strategy {
  return playing(waitsOf(network));
}

type Waits = Extract<Control, { ok: true }>;

/** A side of a limit that was loosened this often, each time by twice as much as before, is given up. */
const MOST_LOOSENED = 6;

/** Choices tried for a network of which it is known that it cannot be controlled as it stands. */
const FEW_ATTEMPTS = 2;

function waitsOf(network: TimeNetwork): Waits {
  const limits = [...network.limits];
  const loosened = new Map<string, number>();
  for (let attempts = MOST_ATTEMPTS; ; attempts = FEW_ATTEMPTS) {
    const loose: TimeNetwork = { ...network, limits };
    const judged = consistency(loose);
    const outcome = judged.consistent ? control(loose, judged.earliest, attempts) : judged;
    if ('ok' in outcome && outcome.ok) return outcome;
    const { part, often } = givesWay(outcome.cycle, loosened);
    const times = (loosened.get(keyOf(part)) ?? 0) + 1;
    loosened.set(keyOf(part), times);
    const by = times > MOST_LOOSENED ? Number.POSITIVE_INFINITY : (outcome.by / often) * 2 ** (times - 1);
    const limit = limits[part.index];
    if (limit !== undefined)
      limits[part.index] = part.side === 'lo' ? { ...limit, lo: limit.lo - by } : { ...limit, hi: limit.hi + by };
  }
}

type LimitSide = Extract<Part, { type: 'limit' }>;

const keyOf = ({ index, side }: LimitSide): string => `${index} ${side}`;

/** The side of a limit in a cycle that was loosened most already or else ends last, and how often the cycle has it. */
function givesWay(
  cycle: readonly Part[],
  loosened: ReadonlyMap<string, number>,
): { readonly part: LimitSide; readonly often: number } {
  const sides = cycle.filter((part): part is LimitSide => part.type === 'limit');
  const most = Math.max(...sides.map((part) => loosened.get(keyOf(part)) ?? 0));
  const part = sides.findLast((one) => (loosened.get(keyOf(one)) ?? 0) === most);
  // Stretches and joins alone never stand against each other.
  if (part === undefined) throw new Error('what cannot be kept has no limit in it');
  return { part, often: sides.filter((one) => keyOf(one) === keyOf(part)).length };
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
function playing({ graph, waits }: Waits): Strategy {
  const { points, links, joins } = graph.network;
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
    if (node >= points || given[node] === 1 || least <= SAME_TIME) continue;
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
