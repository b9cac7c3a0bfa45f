import type { Duration } from '../model.ts';
import { type Flow, type FlowId, innerLists } from './flow.ts';

/**
 * Time between two events, by adding the ranges of what lies between: along straight work exactly, over a decision the shortest and the
 * longest option, over a repetition once to as often as it may. What has no stated length counts as nothing to endless, and is
 * named, so that an answer that hangs on it is not given.
 */
export interface Elapsed {
  /** seconds */
  readonly lo: number;
  readonly hi: number;
  /** whether there are events between whose length nothing states */
  readonly open: boolean;
  /** whether there are waits for a state between */
  readonly waits: boolean;
  /** events between, in order, those that take no time left out; for the run that shows how it can break */
  readonly between: () => readonly { readonly flow: Flow; readonly duration: Duration }[];
}

export type Reading =
  | { readonly ok: true; readonly elapsed: Elapsed }
  /** the two stand in lanes that run side by side */
  | { readonly ok: false; readonly reason: 'side by side' | 'other visit' };

export interface Clock {
  /** from the end of one event (undefined: the beginning of the visit) to the beginning of another */
  readonly between: (since: FlowId | undefined, until: FlowId) => Reading;
  /** from the end of an event (undefined: the beginning of the visit) to the end of the visit */
  readonly toEnd: (since: FlowId | undefined) => Elapsed | undefined;
  readonly has: (id: FlowId) => boolean;
  /** how long an event takes, with all that is inside it */
  readonly duration: (flow: Flow) => Duration;
}

interface Spot {
  readonly list: List;
  readonly at: number;
}

interface List {
  readonly items: readonly Flow[];
  /** the event this list is inside of; undefined for the visit itself */
  readonly owner: Flow | undefined;
  readonly spot: Spot | undefined;
  /** sums of the ranges of all events before each position, one more than there are events */
  readonly lo: Float64Array;
  readonly hi: Float64Array;
  /** number of events before each position whose length is not stated */
  readonly unstated: Uint32Array;
  /** number of waits for a state in or inside the events before each position */
  readonly waits: Uint32Array;
}

/** A clock for one visit. */
export function clockOf(items: readonly Flow[]): Clock {
  const spots = new Map<FlowId, Spot>();
  const durations = new Map<Flow, Duration>();

  const durationOf = (flow: Flow): Duration => {
    const known = durations.get(flow);
    if (known) return known;
    const duration = whole(flow, durationOf);
    durations.set(flow, duration);
    return duration;
  };

  const build = (list: readonly Flow[], owner: Flow | undefined, spot: Spot | undefined): List => {
    const lo = new Float64Array(list.length + 1);
    const hi = new Float64Array(list.length + 1);
    const unstated = new Uint32Array(list.length + 1);
    const waits = new Uint32Array(list.length + 1);
    const made: List = { items: list, owner, spot, lo, hi, unstated, waits };
    list.forEach((flow, at) => {
      const duration = durationOf(flow);
      lo[at + 1] = (lo[at] as number) + duration.lo;
      // Endless lengths are counted, not added: a later difference of sums must not be infinity less infinity.
      hi[at + 1] = (hi[at] as number) + (duration.stated ? duration.hi : 0);
      unstated[at + 1] = (unstated[at] as number) + (duration.stated ? 0 : 1);
      const here = { list: made, at };
      spots.set(flow.id, here);
      let waiting = flow.type === 'wait' && flow.until ? 1 : 0;
      if (flow.type !== 'step')
        for (const inner of innerLists(flow)) {
          const built = build(inner, flow, here);
          waiting += built.waits[inner.length] as number;
        }
      waits[at + 1] = (waits[at] as number) + waiting;
    });
    return made;
  };
  const top = build(items, undefined, undefined);

  const between: Clock['between'] = (since, until) => {
    const end = spots.get(until);
    if (!end) return { ok: false, reason: 'other visit' };
    const start = since === undefined ? undefined : spots.get(since);
    if (since !== undefined && !start) return { ok: false, reason: 'other visit' };
    const sum = new Sum(durationOf);
    const from = start ? { list: start.list, at: start.at + 1 } : { list: listAtTop(end), at: 0 };
    return walk(sum, from, end) ? { ok: true, elapsed: sum.done() } : { ok: false, reason: 'side by side' };
  };
  const toEnd: Clock['toEnd'] = (since) => {
    const sum = new Sum(durationOf);
    const start = since === undefined ? undefined : spots.get(since);
    if (since !== undefined && !start) return undefined;
    let here = start ? { list: start.list, at: start.at + 1 } : { list: top, at: 0 };
    for (;;) {
      const { owner, spot } = here.list;
      if (owner?.type === 'together') sum.restOfLane(owner, here);
      else sum.range(here.list, here.at, here.list.items.length);
      if (!spot) return sum.done();
      here = { list: spot.list, at: spot.at + 1 };
    }
  };
  return { between, toEnd, has: (id) => spots.has(id), duration: durationOf };
}

function listAtTop(spot: Spot): List {
  let { list } = spot;
  while (list.spot) list = list.spot.list;
  return list;
}

/** Adds up from a position to another; false when they stand in lanes side by side. */
function walk(sum: Sum, from: Spot, to: Spot): boolean {
  const above: Spot[] = [];
  for (let spot: Spot | undefined = to; spot; spot = spot.list.spot) above.unshift(spot);
  let here = from;
  // Outwards from where the state began, to the list that both stand in.
  for (;;) {
    const { list, at } = here;
    const meeting = above.find((spot) => spot.list === list);
    if (meeting && meeting.at >= at) {
      sum.range(list, at, meeting.at);
      break;
    }
    const { owner, spot } = list;
    if (!owner || !spot) return false;
    if (owner.type === 'together') sum.restOfLane(owner, here);
    else sum.range(list, at, list.items.length);
    // Once more around: the rest of this time, then from the beginning of the next.
    here = meeting && owner.type === 'repeat' ? { list, at: 0 } : { list: spot.list, at: spot.at + 1 };
  }
  // Inwards to where the step stands.
  const inner = above.slice(above.findIndex((spot) => spot.list === here.list) + 1);
  for (const spot of inner) {
    sum.range(spot.list, 0, spot.at);
    if (spot.list.owner?.type === 'repeat') sum.roundsBefore(spot.list.owner);
  }
  return true;
}

class Sum {
  private lo = 0;
  private hi = 0;
  private open = false;
  private waits = false;
  private readonly stretches: { readonly items: readonly Flow[]; readonly from: number; readonly to: number }[] = [];
  private readonly durationOf: (flow: Flow) => Duration;

  constructor(durationOf: (flow: Flow) => Duration) {
    this.durationOf = durationOf;
  }

  range(list: List, from: number, to: number): void {
    if (to <= from) return;
    this.lo += (list.lo[to] as number) - (list.lo[from] as number);
    this.hi += (list.hi[to] as number) - (list.hi[from] as number);
    if (list.unstated[to] !== list.unstated[from]) this.open = true;
    if (list.waits[to] !== list.waits[from]) this.waits = true;
    this.stretches.push({ items: list.items, from, to });
  }

  /** The rest of a lane, then whatever the longest other lane still takes. */
  restOfLane(together: Flow, here: Spot): void {
    const { list } = here;
    const end = list.items.length;
    const restLo = (list.lo[end] as number) - (list.lo[here.at] as number);
    const all = this.durationOf(together);
    this.lo += Math.max(restLo, all.lo - (list.hi[here.at] as number));
    if (all.stated) this.hi += Math.max(restLo, all.hi - (list.lo[here.at] as number));
    else this.open = true;
    this.stretches.push({ items: [together], from: 0, to: 1 });
  }

  /** The step may stand in a later round. */
  roundsBefore(repeat: Flow): void {
    if (repeat.type !== 'repeat') return;
    const body = listDuration(repeat.items, this.durationOf);
    const more = (repeat.atMost ?? Number.POSITIVE_INFINITY) - 1;
    if (more <= 0) return;
    if (body.stated && Number.isFinite(more)) this.hi += body.hi * more;
    else this.open = true;
    this.stretches.push({ items: [repeat], from: 0, to: 1 });
  }

  done(): Elapsed {
    const { stretches, durationOf } = this;
    return {
      lo: this.lo,
      hi: this.open ? Number.POSITIVE_INFINITY : this.hi,
      open: this.open,
      waits: this.waits,
      between: () =>
        stretches
          .flatMap(({ items, from, to }) => items.slice(from, to))
          .map((flow) => ({ flow, duration: durationOf(flow) }))
          .filter(({ flow, duration }) => duration.hi > 0 || (flow.type === 'wait' && flow.until !== undefined)),
    };
  }
}

/** An event with all that is inside it. */
function whole(flow: Flow, durationOf: (flow: Flow) => Duration): Duration {
  switch (flow.type) {
    case 'step':
    case 'pause':
    case 'wait':
    case 'plain':
    case 'stop':
      return flow.duration;
    case 'call':
      return flow.duration.hi > 0 ? flow.duration : listDuration(flow.items, durationOf);
    case 'verify':
      return flow.otherwise ? plus(flow.duration, maybe(listDuration(flow.otherwise, durationOf))) : flow.duration;
    case 'complication':
      return maybe(listDuration(flow.items, durationOf));
    case 'decide': {
      const branches = flow.branches.filter((branch) => !stops(branch.items));
      if (branches.length === 0) return flow.duration;
      return plus(flow.duration, either(branches.map((branch) => listDuration(branch.items, durationOf))));
    }
    case 'together': {
      const lanes = flow.lanes.map((lane) => listDuration(lane.items, durationOf));
      return {
        lo: Math.max(0, ...lanes.map((lane) => lane.lo)),
        hi: Math.max(0, ...lanes.map((lane) => lane.hi)),
        stated: lanes.every((lane) => lane.stated),
      };
    }
    case 'repeat': {
      const body = listDuration(flow.items, durationOf);
      if (flow.atMost === undefined) return { lo: body.lo, hi: Number.POSITIVE_INFINITY, stated: false };
      return { lo: body.lo, hi: body.hi * flow.atMost, stated: body.stated };
    }
    default:
      return flow satisfies never;
  }
}

export function listDuration(items: readonly Flow[], durationOf: (flow: Flow) => Duration): Duration {
  let sum: Duration = { lo: 0, hi: 0, stated: true };
  for (const flow of items) sum = plus(sum, durationOf(flow));
  return sum;
}

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

function stops(items: readonly Flow[]): boolean {
  return items.some((flow) => flow.type === 'stop');
}
