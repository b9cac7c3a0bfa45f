import type { Flow, FlowId } from '../../../server/src/analysis/protocol/flow.ts';

/** How one course of the work turns out. */
export interface Turns {
  /** seconds between the two */
  readonly length: (lo: number, hi: number) => number;
  /** one of so many */
  readonly choice: (of: number) => number;
}

/** When the events of a course began and ended, seconds; an event that comes again, its last time. */
export interface Played {
  readonly begun: ReadonlyMap<FlowId, number>;
  readonly ended: ReadonlyMap<FlowId, number>;
}

/**
 * Plays a visit line by line, as a team does that goes on at once when it can: an independent reading of what the language says about time.
 * What is not stated lasts as `unstated` says, at most.
 */
export function play(
  items: readonly Flow[],
  turns: Turns,
  unstated: number,
  watch?: (flow: Flow, played: Played) => void,
): Played {
  const begun = new Map<FlowId, number>();
  const ended = new Map<FlowId, number>();
  const since = new Map<number, { readonly state: string; readonly at: number }>();
  const played: Played = { begun, ended };
  const list = (flows: readonly Flow[], from: number): number | undefined => {
    let now: number | undefined = from;
    for (const flow of flows) {
      if (now === undefined) return undefined;
      now = one(flow, now);
    }
    return now;
  };
  const one = (flow: Flow, from: number): number | undefined => {
    begun.set(flow.id, from);
    watch?.(flow, played);
    const end = after(flow, from);
    if (end === undefined) return undefined;
    ended.set(flow.id, end);
    if (flow.type === 'step') for (const set of flow.plan.sets) since.set(set.index, { state: set.state, at: end });
    return end;
  };
  const after = (flow: Flow, from: number): number | undefined => {
    const { lo, hi, stated } = flow.duration;
    const now = from + (flow.type === 'call' ? 0 : turns.length(lo, stated ? hi : Math.max(lo, unstated)));
    switch (flow.type) {
      case 'wait': {
        const { until } = flow;
        const began = until && since.get(until.index);
        if (!until) return now;
        return began?.state === until.state ? Math.max(from, began.at + until.seconds) : from;
      }
      case 'call':
        return list(flow.items, from);
      case 'together': {
        const ends = flow.lanes.map((lane) => list(lane.items, now));
        return ends.some((end) => end === undefined) ? undefined : Math.max(now, ...ends.flatMap((end) => end ?? []));
      }
      case 'decide': {
        const branch = flow.branches[turns.choice(flow.branches.length)];
        return branch ? list(branch.items, now) : now;
      }
      case 'verify':
        return flow.otherwise && turns.choice(2) === 1 ? list(flow.otherwise, now) : now;
      case 'complication':
        return turns.choice(2) === 1 ? list(flow.items, now) : now;
      case 'repeat': {
        let end = list(flow.items, now);
        for (let more = turns.choice(flow.atMost ?? 3); more > 0 && end !== undefined; more--)
          end = list(flow.items, end);
        return end;
      }
      case 'stop':
        return undefined;
      case 'step':
      case 'pause':
      case 'plain':
        return now;
      default:
        return flow satisfies never;
    }
  };
  list(items, 0);
  return played;
}
