import type { Duration } from '../model.ts';
import type { Flow } from './flow.ts';

const durations = new WeakMap<Flow, Duration>();

/** How long an event takes, with all that is inside it; seconds. Events do not change, so it is worked out once. */
export function durationOf(flow: Flow): Duration {
  const known = durations.get(flow);
  if (known) return known;
  const duration = whole(flow);
  durations.set(flow, duration);
  return duration;
}

export function listDuration(items: readonly Flow[]): Duration {
  let sum: Duration = { lo: 0, hi: 0, stated: true };
  for (const flow of items) sum = plus(sum, durationOf(flow));
  return sum;
}

function whole(flow: Flow): Duration {
  switch (flow.type) {
    case 'step':
    case 'pause':
    case 'wait':
    case 'plain':
    case 'stop':
      return flow.duration;
    case 'call':
      return flow.duration.hi > 0 ? flow.duration : listDuration(flow.items);
    case 'verify':
      return flow.otherwise && !stops(flow.otherwise)
        ? plus(flow.duration, maybe(listDuration(flow.otherwise)))
        : flow.duration;
    case 'complication':
      return stops(flow.items) ? instant : maybe(listDuration(flow.items));
    case 'decide': {
      const branches = flow.branches.filter((branch) => !stops(branch.items));
      if (branches.length === 0) return flow.duration;
      return plus(flow.duration, either(branches.map((branch) => listDuration(branch.items))));
    }
    case 'together': {
      const lanes = flow.lanes.map((lane) => listDuration(lane.items));
      return {
        lo: Math.max(0, ...lanes.map((lane) => lane.lo)),
        hi: Math.max(0, ...lanes.map((lane) => lane.hi)),
        stated: lanes.every((lane) => lane.stated),
      };
    }
    case 'repeat': {
      const body = listDuration(flow.items);
      if (flow.atMost === undefined) return { lo: body.lo, hi: Number.POSITIVE_INFINITY, stated: false };
      return { lo: body.lo, hi: body.hi * flow.atMost, stated: body.stated };
    }
    default:
      return flow satisfies never;
  }
}

const instant: Duration = { lo: 0, hi: 0, stated: true };

function plus(a: Duration, b: Duration): Duration {
  return { lo: a.lo + b.lo, hi: a.hi + b.hi, stated: a.stated && b.stated };
}

function maybe(duration: Duration): Duration {
  return { ...duration, lo: 0 };
}

function either(durations: readonly Duration[]): Duration {
  return {
    lo: Math.min(...durations.map((duration) => duration.lo)),
    hi: Math.max(...durations.map((duration) => duration.hi)),
    stated: durations.every((duration) => duration.stated),
  };
}

/** Whether no run comes out of a list of events: what it takes is then no part of what comes after. */
export function stops(items: readonly Flow[]): boolean {
  return items.some((flow) => {
    switch (flow.type) {
      case 'stop':
        return true;
      case 'decide':
        return flow.branches.length > 0 && flow.branches.every((branch) => stops(branch.items));
      case 'together':
        return flow.lanes.some((lane) => stops(lane.items));
      case 'call':
      case 'repeat':
        return stops(flow.items);
      case 'step':
      case 'pause':
      case 'wait':
      case 'verify':
      case 'complication':
      case 'plain':
        return false;
      default:
        return flow satisfies never;
    }
  });
}
