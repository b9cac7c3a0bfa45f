import type { Range } from '@curette/shared';
import { listDuration, stops } from './durations.ts';
import type { Flow, FlowId, WaitFlow } from './flow.ts';
import { initialOf } from './following.ts';
import { isIn, type Possibilities, type States } from './possibility.ts';
import type { ProtocolFacts, VisitFacts } from './protocol.ts';
import { followItems } from './states.ts';

/** When an event can begin and end, in seconds since the beginning of its visit; `hi` may be Infinity. */
export interface Window {
  readonly start: Range;
  readonly end: Range;
}

/**
 * When each event of a visit can begin and end. Every moment is a sum of durations or the latest of other moments, so it is earliest
 * when all durations are as short as they may be, latest when all are as long: both are played at once, which is exact but for what
 * an option taken early says of one that stands later.
 */
export function windowsOf(items: readonly Flow[], began: Beginnings): Windows {
  const windows = new Map<FlowId, Window>();
  const end = playList({ windows, began }, items, { lo: 0, hi: 0 });
  return { windows, end };
}

export interface Windows {
  readonly windows: ReadonlyMap<FlowId, Window>;
  /** of the whole visit */
  readonly end: Range;
}

interface Play {
  readonly windows: Map<FlowId, Window>;
  readonly began: Beginnings;
}

function playList(play: Play, items: readonly Flow[], start: Range): Range {
  let now = start;
  for (const flow of items) now = playOne(play, flow, now);
  return now;
}

function playOne(play: Play, flow: Flow, start: Range): Range {
  const end = endOf(play, flow, start);
  play.windows.set(flow.id, { start, end });
  return end;
}

function endOf(play: Play, flow: Flow, start: Range): Range {
  const own = { lo: start.lo + flow.duration.lo, hi: start.hi + flow.duration.hi };
  switch (flow.type) {
    case 'step':
    case 'pause':
    case 'plain':
    case 'stop':
      return own;
    case 'wait':
      return flow.until ? whenOldEnough(play, flow, flow.until.seconds, start) : own;
    case 'call': {
      const end = playList(play, flow.items, start);
      return flow.duration.hi > 0 ? own : end;
    }
    case 'verify': {
      if (!flow.otherwise) return own;
      const mended = playList(play, flow.otherwise, own);
      return stops(flow.otherwise) ? own : { lo: own.lo, hi: Math.max(own.hi, mended.hi) };
    }
    case 'complication': {
      const over = playList(play, flow.items, own);
      return stops(flow.items) ? own : { lo: own.lo, hi: Math.max(own.hi, over.hi) };
    }
    case 'decide': {
      const ends = flow.branches.map((branch) => ({ branch, end: playList(play, branch.items, own) }));
      const going = ends.filter(({ branch }) => !stops(branch.items)).map(({ end }) => end);
      if (going.length === 0) return own;
      return { lo: Math.min(...going.map(({ lo }) => lo)), hi: Math.max(...going.map(({ hi }) => hi)) };
    }
    case 'together': {
      const ends = flow.lanes.map((lane) => playList(play, lane.items, own));
      return { lo: Math.max(own.lo, ...ends.map(({ lo }) => lo)), hi: Math.max(own.hi, ...ends.map(({ hi }) => hi)) };
    }
    case 'repeat': {
      const more = Math.max(0, (flow.atMost ?? Number.POSITIVE_INFINITY) - 1);
      const round = listDuration(flow.items).hi;
      return playList(play, flow.items, { lo: own.lo, hi: own.hi + (more > 0 && round > 0 ? more * round : 0) });
    }
    default:
      return flow satisfies never;
  }
}

/** At once when the state is that old and what came before is over. */
function whenOldEnough(play: Play, flow: WaitFlow, seconds: number, start: Range): Range {
  const began = play.began(flow).map((since): Range => {
    const window = since === undefined ? undefined : play.windows.get(since);
    return window ? window.end : { lo: Number.NEGATIVE_INFINITY, hi: 0 };
  });
  if (began.length === 0) return start;
  return {
    lo: Math.max(start.lo, Math.min(...began.map(({ lo }) => lo)) + seconds),
    hi: Math.max(start.hi, Math.max(...began.map(({ hi }) => hi)) + seconds),
  };
}

/** The events at whose end the state may have begun that a wait is for; undefined for one from before the visit. */
export type Beginnings = (wait: WaitFlow) => readonly (FlowId | undefined)[];

/** For the waits of a visit. The states are followed once more for it, if there is a wait for one. */
export function beginningsOf(facts: ProtocolFacts, visit: VisitFacts): Beginnings {
  let found: Map<Flow, readonly (FlowId | undefined)[]> | undefined;
  const look = () => {
    const beginnings = new Map<Flow, readonly (FlowId | undefined)[]>();
    const { following } = facts.context;
    const watch = (flow: Flow, states: States) => {
      if (flow.type !== 'wait' || !flow.until) return;
      const { index, state } = flow.until;
      const possibilities: Possibilities = states[index] ?? initialOf(following, index);
      const known = beginnings.get(flow) ?? [];
      const sinces = possibilities.filter((one) => isIn(one, state)).map((one) => one.since);
      // In a repetition the second time around: as early as either.
      beginnings.set(flow, [...new Set([...known, ...sinces])]);
    };
    followItems({ ...following, find: () => undefined, watch }, visit.items, visit.followed.entry);
    return beginnings;
  };
  return (wait) => {
    found ??= look();
    return found.get(wait) ?? [];
  };
}
