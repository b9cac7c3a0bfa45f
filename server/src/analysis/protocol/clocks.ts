import { lastStarting } from '@curette/grammar';
import type { Leg } from '../calendar/elapsed-against.ts';
import type { Duration } from '../model.ts';
import { type Chunk, perChunk } from './chunks.ts';
import { durationOf, listDuration } from './durations.ts';
import { type Flow, type FlowId, innerLists, type TogetherFlow } from './flow.ts';

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
  /** whether it reaches over two visits between which nothing says how long to wait */
  readonly gap: boolean;
  /** whether there are waits for a state between */
  readonly waits: boolean;
  /** whether there are waits between whose length the team chooses; here they count as if nobody did */
  readonly chosen: boolean;
  /** what lies between, leg by leg, when it reaches over several visits: to be judged on dates */
  readonly legs: readonly Leg[] | undefined;
  /** events between, in order, those that take no time left out; for the run that shows how it can break */
  readonly between: () => readonly { readonly flow: Flow; readonly duration: Duration }[];
}

export type Reading =
  | { readonly ok: true; readonly elapsed: Elapsed }
  /** the two stand in lanes that run side by side, or not in one course of work */
  | { readonly ok: false; readonly reason: 'side by side' | 'other visit' };

export interface Clock {
  /** from the end of one event (undefined: the beginning of the visit) to the beginning of another */
  readonly between: (since: FlowId | undefined, until: FlowId) => Reading;
  /** from the end of an event (undefined: the beginning of the visit) to the end of the visit */
  readonly toEnd: (since: FlowId | undefined) => Elapsed | undefined;
  readonly has: (id: FlowId) => boolean;
}

/** Sums of the ranges of all events before each position; one more position than there are events. */
interface Times {
  readonly lo: Float64Array;
  readonly hi: Float64Array;
  /** number of events whose length is not stated */
  readonly unstated: Uint32Array;
  /** number of waits for a state, those inside events included */
  readonly waits: Uint32Array;
  /** number of waits of a chosen length, likewise */
  readonly chosen: Uint32Array;
}

/** A list of events as the clock reads it: the whole visit, or a list inside an event. */
interface List {
  readonly length: number;
  readonly sums: (at: number) => {
    readonly lo: number;
    readonly hi: number;
    readonly unstated: number;
    readonly waits: number;
    readonly chosen: number;
  };
  readonly slice: (from: number, to: number) => readonly Flow[];
}

/** A position in a list, and where the event that the list is inside of stands. */
interface Spot {
  readonly list: List;
  readonly at: number;
  readonly owner: Flow | undefined;
  readonly up: Spot | undefined;
}

/** Where an event stands within its stretch: positions inwards, the first in the stretch itself. */
interface Path {
  readonly at: number;
  readonly inside: { readonly items: readonly Flow[]; readonly owner: Flow; readonly up: Path } | undefined;
}

/** A clock for one visit. */
export function clockOf(chunks: readonly Chunk[]): Clock {
  const starts: number[] = [];
  const before: ReturnType<typeof at>[] = [];
  let length = 0;
  let total: ReturnType<typeof at> = { lo: 0, hi: 0, unstated: 0, waits: 0, chosen: 0 };
  for (const chunk of chunks) {
    starts.push(length);
    before.push(total);
    const times = timesOfChunk(chunk);
    const end = chunk.items.length;
    total = plus(total, at(times, end));
    length += end;
  }
  const top: List = {
    length,
    sums: (position) => {
      const i = lastStarting(starts, position);
      const chunk = chunks[i];
      return chunk ? plus(before[i] ?? total, at(timesOfChunk(chunk), position - (starts[i] ?? 0))) : total;
    },
    slice: (from, to) =>
      chunks.flatMap((chunk, i) => {
        const start = starts[i] ?? 0;
        return chunk.items.slice(Math.max(0, from - start), Math.max(0, to - start));
      }),
  };

  const spotOf = (id: FlowId): Spot | undefined => {
    for (let i = 0; i < chunks.length; i++) {
      const path = pathsOfChunk(chunks[i] as Chunk).get(id);
      if (path) return resolve(path, starts[i] ?? 0);
    }
    return undefined;
  };
  const resolve = (path: Path, start: number): Spot => {
    if (!path.inside) return { list: top, at: start + path.at, owner: undefined, up: undefined };
    const { items, owner, up } = path.inside;
    return { list: innerList(items), at: path.at, owner, up: resolve(up, start) };
  };

  return {
    has: (id) => chunks.some((chunk) => pathsOfChunk(chunk).has(id)),
    between: (since, until) => {
      const end = spotOf(until);
      const start = since === undefined ? undefined : spotOf(since);
      if (!end || (since !== undefined && !start)) return { ok: false, reason: 'other visit' };
      const sum = new Sum();
      const from: Spot = start ? after(start) : { list: top, at: 0, owner: undefined, up: undefined };
      return walk(sum, from, end) ? { ok: true, elapsed: sum.done() } : { ok: false, reason: 'side by side' };
    },
    toEnd: (since) => {
      const sum = new Sum();
      const start = since === undefined ? undefined : spotOf(since);
      if (since !== undefined && !start) return undefined;
      let here: Spot = start ? after(start) : { list: top, at: 0, owner: undefined, up: undefined };
      for (;;) {
        if (here.owner?.type === 'together') sum.restOfLane(here.owner, here);
        else sum.range(here.list, here.at, here.list.length);
        if (!here.up) return sum.done();
        here = after(here.up);
      }
    },
  };
}

/** Adds up from a position to another; false when they stand in lanes side by side. */
function walk(sum: Sum, from: Spot, to: Spot): boolean {
  const above: Spot[] = [];
  for (let spot: Spot | undefined = to; spot; spot = spot.up) above.unshift(spot);
  let here = from;
  // Outwards from where the state began, to the list that both stand in.
  for (;;) {
    const { list } = here;
    const meeting = above.find((spot) => spot.list === list);
    if (meeting && meeting.at >= here.at) {
      sum.range(list, here.at, meeting.at);
      break;
    }
    if (!here.owner || !here.up) return false;
    if (here.owner.type === 'together') sum.restOfLane(here.owner, here);
    else sum.range(list, here.at, list.length);
    // Once more around: the rest of this time, then from the beginning of the next.
    here = meeting && here.owner.type === 'repeat' ? { ...here, at: 0 } : after(here.up);
  }
  // Inwards to where the step stands.
  const inner = above.slice(above.findIndex((spot) => spot.list === here.list) + 1);
  for (const spot of inner) {
    if (spot.owner) sum.looked(spot.owner);
    sum.range(spot.list, 0, spot.at);
    if (spot.owner?.type === 'repeat') sum.roundsBefore(spot.owner);
  }
  return true;
}

function after(spot: Spot): Spot {
  return { ...spot, at: spot.at + 1 };
}

class Sum {
  private lo = 0;
  private hi = 0;
  private open = false;
  private waits = false;
  private chosen = false;
  private readonly stretches: (() => ReturnType<Elapsed['between']>)[] = [];

  range(list: List, from: number, to: number): void {
    if (to <= from) return;
    const a = list.sums(from);
    const b = list.sums(to);
    this.lo += b.lo - a.lo;
    this.hi += b.hi - a.hi;
    if (b.unstated !== a.unstated) this.open = true;
    if (b.waits !== a.waits) this.waits = true;
    if (b.chosen !== a.chosen) this.chosen = true;
    this.stretches.push(() => list.slice(from, to).map((flow) => ({ flow, duration: durationOf(flow) })));
  }

  /** The rest of a lane, then whatever the longest other lane still takes. */
  restOfLane(together: TogetherFlow, here: Spot): void {
    const end = here.list.sums(here.list.length);
    const gone = here.list.sums(here.at);
    const others = together.lanes.filter((lane) => innerList(lane.items) !== here.list).map((lane) => lane.items);
    const ends = others.map(listDuration);
    const stated = end.unstated === gone.unstated && ends.every((other) => other.stated);
    const lo = Math.max(
      end.lo - gone.lo,
      ...ends.map((other) => other.lo - (gone.unstated > 0 ? Number.POSITIVE_INFINITY : gone.hi)),
    );
    const hi = stated
      ? Math.max(end.hi - gone.hi, ...ends.map((other) => other.hi - gone.lo))
      : Number.POSITIVE_INFINITY;
    this.lo += lo;
    if (stated) this.hi += hi;
    else this.open = true;
    if (countIn(together, isWaitForState) > 0) this.waits = true;
    if (countIn(together, isChosen) > 0) this.chosen = true;
    this.stretches.push(() => [{ flow: together, duration: { lo, hi, stated } }]);
  }

  /** What a decision or a check itself takes, before what it leads to begins. */
  looked(owner: Flow): void {
    if (owner.type !== 'decide' && owner.type !== 'verify') return;
    const { duration } = owner;
    this.lo += duration.lo;
    if (duration.stated) this.hi += duration.hi;
    else this.open = true;
    this.stretches.push(() => [{ flow: owner, duration }]);
  }

  /** The step may stand in a later round. */
  roundsBefore(repeat: Flow): void {
    if (repeat.type !== 'repeat') return;
    const body = listDuration(repeat.items);
    const more = (repeat.atMost ?? Number.POSITIVE_INFINITY) - 1;
    if (more <= 0) return;
    const stated = body.stated && Number.isFinite(more);
    const hi = stated ? body.hi * more : Number.POSITIVE_INFINITY;
    if (stated) this.hi += hi;
    else this.open = true;
    this.stretches.push(() => [{ flow: repeat, duration: { lo: 0, hi, stated } }]);
  }

  done(): Elapsed {
    const { stretches } = this;
    return {
      lo: this.lo,
      hi: this.open ? Number.POSITIVE_INFINITY : this.hi,
      open: this.open,
      gap: false,
      legs: undefined,
      waits: this.waits,
      chosen: this.chosen,
      between: () =>
        stretches
          .flatMap((parts) => parts())
          .filter(({ flow, duration }) => duration.hi > 0 || (flow.type === 'wait' && flow.until !== undefined)),
    };
  }
}

const timesOfChunk = perChunk((chunk) => timesOf(chunk.items));

const pathsOfChunk = perChunk((chunk) => {
  const paths = new Map<FlowId, Path>();
  const visit = (items: readonly Flow[], inside: Path['inside']): void => {
    items.forEach((flow, position) => {
      const path: Path = { at: position, inside };
      paths.set(flow.id, path);
      for (const inner of innerLists(flow)) visit(inner, { items: inner, owner: flow, up: path });
      // What was found is known before the first step of its option.
      if (flow.type === 'decide')
        for (const { id, items: inner } of flow.branches)
          paths.set(id, { at: -1, inside: { items: inner, owner: flow, up: path } });
    });
  };
  visit(chunk.items, undefined);
  return paths;
});

const innerKept = new WeakMap<readonly Flow[], List>();

function innerList(items: readonly Flow[]): List {
  const known = innerKept.get(items);
  if (known) return known;
  const times = timesOf(items);
  const list: List = {
    length: items.length,
    sums: (position) => at(times, position),
    slice: (from, to) => items.slice(from, to),
  };
  innerKept.set(items, list);
  return list;
}

function timesOf(items: readonly Flow[]): Times {
  const lo = new Float64Array(items.length + 1);
  const hi = new Float64Array(items.length + 1);
  const unstated = new Uint32Array(items.length + 1);
  const waits = new Uint32Array(items.length + 1);
  const chosen = new Uint32Array(items.length + 1);
  items.forEach((flow, position) => {
    const duration = durationOf(flow);
    lo[position + 1] = (lo[position] ?? 0) + duration.lo;
    // Endless lengths are counted, not added: a later difference of sums must not be infinity less infinity.
    hi[position + 1] = (hi[position] ?? 0) + (duration.stated ? duration.hi : 0);
    unstated[position + 1] = (unstated[position] ?? 0) + (duration.stated ? 0 : 1);
    waits[position + 1] = (waits[position] ?? 0) + countIn(flow, isWaitForState);
    chosen[position + 1] = (chosen[position] ?? 0) + countIn(flow, isChosen);
  });
  return { lo, hi, unstated, waits, chosen };
}

function countIn(flow: Flow, counts: (flow: Flow) => boolean): number {
  if (flow.type === 'step') return 0;
  let count = counts(flow) ? 1 : 0;
  for (const inner of innerLists(flow)) for (const other of inner) count += countIn(other, counts);
  return count;
}

function isWaitForState(flow: Flow): boolean {
  return flow.type === 'wait' && flow.until !== undefined;
}

/** Whether the team chooses how long an event lasts, within what is written. */
export function isChosen(flow: Flow): boolean {
  return flow.type === 'wait' && !flow.until && !flow.passing && flow.duration.lo < flow.duration.hi;
}

function at(times: Times, position: number) {
  return {
    lo: times.lo[position] ?? 0,
    hi: times.hi[position] ?? 0,
    unstated: times.unstated[position] ?? 0,
    waits: times.waits[position] ?? 0,
    chosen: times.chosen[position] ?? 0,
  };
}

function plus(a: ReturnType<typeof at>, b: ReturnType<typeof at>): ReturnType<typeof at> {
  return {
    lo: a.lo + b.lo,
    hi: a.hi + b.hi,
    unstated: a.unstated + b.unstated,
    waits: a.waits + b.waits,
    chosen: a.chosen + b.chosen,
  };
}
