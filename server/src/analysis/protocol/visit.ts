import type { StatementOf } from '@curette/grammar';
import type { Flow } from './flow.ts';
import type { Following, StateFinding } from './following.ts';
import { type States, sameStates } from './possibility.ts';
import { followOne } from './states.ts';

/** What following a visit's states gave, and enough of the way to take it up again after a change in the middle. */
export interface FollowedVisit {
  readonly statement: StatementOf<'visit'>;
  readonly items: readonly Flow[];
  readonly entry: States;
  /** undefined: no run gets to the end */
  readonly exit: States | undefined;
  /** what was found at each event, by its position */
  readonly found: readonly (readonly StateFinding[])[];
  /** states before some of the events, by position */
  readonly checkpoints: ReadonlyMap<number, States>;
}

/** Few enough to be cheap to keep, near enough for the way between two to be short. */
const STRIDE = 32;

/**
 * Follows the states through a visit. What an earlier run found is taken over for the events before the first change, and again from
 * the first checkpoint after the last change where the states are what they were: so the cost of a change is that of its
 * neighbourhood, not of the visit. The answer is the same as without `previous`.
 */
export function followVisit(
  following: Following,
  statement: StatementOf<'visit'>,
  items: readonly Flow[],
  entry: States,
  previous: FollowedVisit | undefined,
): FollowedVisit {
  const checkpoints = new Map<number, States>();
  const old = previous && sameStates(previous.entry, entry) ? previous : undefined;
  const prefix = old ? commonPrefix(old.items, items) : 0;
  const suffix = old ? commonSuffix(old.items, items, prefix) : 0;
  const delta = old ? items.length - old.items.length : 0;

  let at = 0;
  let states: States | undefined = [...entry];
  if (old)
    for (const [position, kept] of old.checkpoints) {
      if (position > prefix) continue;
      checkpoints.set(position, kept);
      if (position > at) {
        at = position;
        states = [...kept];
      }
    }
  const found: (readonly StateFinding[])[] = old ? old.found.slice(0, at) : [];

  let lastCheckpoint = at;
  let last: Flow | undefined = items[at - 1];
  for (; at < items.length; at++) {
    const flow = items[at] as Flow;
    if (!states) {
      const after = last;
      found.push(after ? [{ type: 'unreachable', flow, after }] : none);
      // Said once, at the first event that no run reaches.
      for (let rest = at + 1; rest < items.length; rest++) found.push(none);
      return { statement, items, entry, exit: undefined, found, checkpoints };
    }
    if (old && at >= items.length - suffix) {
      const kept = old.checkpoints.get(at - delta);
      if (kept && sameStates(kept, states)) {
        for (const [position, states] of old.checkpoints)
          if (position >= at - delta) checkpoints.set(position + delta, states);
        const rest = old.found.slice(at - delta);
        return { statement, items, entry, exit: old.exit, found: found.concat(rest), checkpoints };
      }
    }
    if (at - lastCheckpoint >= STRIDE || (old && at >= items.length - suffix && old.checkpoints.has(at - delta))) {
      checkpoints.set(at, [...states]);
      lastCheckpoint = at;
    }
    const here: StateFinding[] = [];
    states = followOne({ ...following, find: (finding) => here.push(finding) }, flow, states);
    found.push(here.length === 0 ? none : here);
    last = flow;
  }
  return { statement, items, entry, exit: states, found, checkpoints };
}

const none: readonly StateFinding[] = [];

function commonPrefix(a: readonly Flow[], b: readonly Flow[]): number {
  const most = Math.min(a.length, b.length);
  let same = 0;
  while (same < most && a[same] === b[same]) same++;
  return same;
}

function commonSuffix(a: readonly Flow[], b: readonly Flow[], prefix: number): number {
  const most = Math.min(a.length, b.length) - prefix;
  let same = 0;
  while (same < most && a[a.length - 1 - same] === b[b.length - 1 - same]) same++;
  return same;
}
