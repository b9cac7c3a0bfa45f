/**
 * A simple temporal network with uncertainty (Vidal and Fargier, J Exp Theor Artif Intell 1999;11:23-45): moments, limits on the time
 * between two of them, and stretches whose length nobody decides. Numbers are seconds, but nothing here depends on that.
 *
 * To the network of the literature one kind of moment is added, because people at work do not stand about unless they are told to:
 * one that comes *at once* when what it waits for is over. It is neither chosen nor an outcome.
 */
export interface TimeNetwork {
  /** moments are numbered from 0; 0 is the beginning, and nothing comes before it */
  readonly points: number;
  readonly limits: readonly Limit[];
  readonly links: readonly ContingentLink[];
  readonly joins: readonly Join[];
}

/** `lo <= t[to] - t[from] <= hi`. `lo` may be -Infinity, `hi` Infinity. */
export interface Limit {
  readonly from: number;
  readonly to: number;
  readonly lo: number;
  readonly hi: number;
}

/**
 * `t[to] = t[from] + d`, where `lo <= d <= hi` turns out when `to` comes; finite, `0 <= lo <= hi`. A moment is the `to` of one link at
 * most, and `from` may itself be the `to` of another.
 */
export interface ContingentLink {
  readonly from: number;
  readonly to: number;
  readonly lo: number;
  readonly hi: number;
}

/** `t[point]` is the latest of `t[from] + delay` over `after`; not chosen, no link's `to`. Delays are finite and not negative. */
export interface Join {
  readonly point: number;
  readonly after: readonly { readonly from: number; readonly delay: number }[];
}

/** One side of a part of a network: what a cycle of an explanation is made of. */
export type Part =
  | { readonly type: 'limit'; readonly index: number; readonly side: 'lo' | 'hi' }
  /** that a stretch may be as short as its `lo`, or as long as its `hi` */
  | { readonly type: 'link'; readonly index: number; readonly side: 'lo' | 'hi' }
  /** that a moment comes when one of what it waits for is over (`at once`), or not before it (`not before`) */
  | { readonly type: 'join'; readonly index: number; readonly after: number; readonly side: 'at once' | 'not before' };

/** Seconds within which two times are the same: durations are written in seconds at the finest, sums of them in binary. */
export const SAME_TIME = 1e-6;
