import type { TimeNetwork } from './network.ts';

/** Whether one moment comes before another, or with it, by what the network is made of alone. */
export type Precedence = (earlier: number, later: number) => boolean;

/**
 * What comes before what in a consistent network: a link's beginning before its end, what a join waits for before the join, and where a
 * limit wants some time between two moments the one before the other. Room for `points²` bits.
 */
export function precedenceOf(network: TimeNetwork): Precedence {
  const { points, limits, links, joins } = network;
  const earlier: number[][] = Array.from({ length: points }, () => []);
  for (const { from, to } of links) earlier[to]?.push(from);
  for (const { point, after } of joins) for (const { from } of after) earlier[point]?.push(from);
  for (const { from, to, lo, hi } of limits) {
    if (lo > 0 && lo < Number.POSITIVE_INFINITY) earlier[to]?.push(from);
    if (hi < 0 && hi > Number.NEGATIVE_INFINITY) earlier[from]?.push(to);
  }

  const words = (points + 31) >> 5;
  const rows = new Uint32Array(points * words);
  const state = new Uint8Array(points);
  const open: number[] = [];
  for (let start = 0; start < points; start++) {
    open.push(start);
    for (let moment = open.at(-1); moment !== undefined; moment = open.at(-1)) {
      if (state[moment] === 0) {
        state[moment] = 1;
        for (const before of earlier[moment] ?? []) if (state[before] === 0) open.push(before);
        continue;
      }
      open.pop();
      if (state[moment] === 2) continue;
      state[moment] = 2;
      const row = moment * words;
      for (const before of earlier[moment] ?? []) {
        const other = before * words;
        for (let word = 0; word < words; word++)
          rows[row + word] = (rows[row + word] as number) | (rows[other + word] as number);
        rows[row + (before >> 5)] = (rows[row + (before >> 5)] as number) | (1 << (before & 31));
      }
    }
  }
  return (one, other) => one === other || (((rows[other * words + (one >> 5)] as number) >>> (one & 31)) & 1) === 1;
}
