/** Networks of time, written short. */
import type { Join, Limit, Part, TimeNetwork } from '../../server/src/analysis/time/network.ts';

/** A limit, or a stretch that nobody decides: `between(1, 2, 10, 20)` says that moment 2 comes 10 to 20 after moment 1. */
export const between = (from: number, to: number, lo: number, hi = Number.POSITIVE_INFINITY): Limit => ({
  from,
  to,
  lo,
  hi,
});

/** `latest(3, [1], [2, 5])`: moment 3 comes at once when moment 1 has come, and moment 2 was 5 ago. */
export const latest = (point: number, ...after: readonly (readonly [number, number?])[]): Join => ({
  point,
  after: after.map(([from, delay = 0]) => ({ from, delay })),
});

export function network(
  points: number,
  parts: { readonly limits?: readonly Limit[]; readonly links?: readonly Limit[]; readonly joins?: readonly Join[] },
): TimeNetwork {
  const { limits = [], links = [], joins = [] } = parts;
  return { points, limits, links, joins };
}

/** A cycle in words: `limit 0 lo`, `join 1.2 not before`. */
export const inWords = (cycle: readonly Part[]): string[] =>
  cycle.map((part) => `${part.type} ${part.index}${part.type === 'join' ? `.${part.after}` : ''} ${part.side}`);

/**
 * Seconds by which a closed round of reasons falls short, worked out from the network alone; an error if one does not begin where the
 * one before it ended.
 */
export function shortBy(network: TimeNetwork, cycle: readonly Part[]): number {
  const steps = cycle.map((part) => stepOf(network, part));
  let sum = 0;
  for (const [index, { from, gain }] of steps.entries()) {
    const { to } = steps.at(index - 1) ?? { to: Number.NaN };
    // Nothing comes before moment 0: from there on every moment is reached at no cost.
    if (to !== from && to !== 0)
      throw new Error(`${inWords(cycle).join(', ')}: ${index} begins at ${from}, not at ${to}`);
    sum += gain;
  }
  return sum;
}

/** What a part says as "`to` is not before `gain` after `from`". */
function stepOf(
  network: TimeNetwork,
  part: Part,
): { readonly from: number; readonly to: number; readonly gain: number } {
  if (part.type === 'join') {
    const join = network.joins[part.index];
    const after = join?.after[part.after];
    if (join === undefined || after === undefined || part.side !== 'not before') throw new Error('no such reason');
    return { from: after.from, to: join.point, gain: after.delay };
  }
  const bounds = (part.type === 'limit' ? network.limits : network.links)[part.index];
  if (bounds === undefined) throw new Error('no such reason');
  return part.side === 'lo'
    ? { from: bounds.from, to: bounds.to, gain: bounds.lo }
    : { from: bounds.to, to: bounds.from, gain: -bounds.hi };
}
