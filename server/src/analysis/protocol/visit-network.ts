import type { ContingentLink, Join, Limit, TimeNetwork } from '../time/network.ts';
import { isChosen } from './clocks.ts';
import { durationOf } from './durations.ts';
import { type Assumption, type Flow, type FlowId, innerLists, type Lane, type WaitFlow } from './flow.ts';

/** A time asked for between two moments of a visit: from the end of an event to the beginning of another. Seconds. */
export interface AskedTime {
  /** undefined: from the beginning of the visit */
  readonly since: FlowId | undefined;
  readonly until: FlowId;
  readonly least: number;
  readonly most: number;
  /** only where this was found */
  readonly when: readonly Assumption[];
}

/** A visit's events, as far as some times hang on them, as a network. */
export interface VisitNetwork {
  readonly network: TimeNetwork;
  /** for each contingent link, the events whose length it is */
  readonly events: readonly (readonly Flow[])[];
  /** for each limit, what it is there for */
  readonly limits: readonly LimitOrigin[];
  /** links of events whose length nothing states: they stand in the network as lasting up to `ENDLESS` */
  readonly unstated: ReadonlySet<number>;
}

export type LimitOrigin =
  | { readonly type: 'asked'; readonly asked: number; readonly start: number; readonly until: number }
  | { readonly type: 'chosen'; readonly wait: WaitFlow };

/** Longer than any work at the chair; seconds. Stands for a length that nothing states. */
export const ENDLESS = 1e7;

/** More paths through decisions than this are not told apart. */
export const MOST_PATHS = 64;

/** A repetition is unrolled this often at most. */
const MOST_ROUNDS = 4;

/**
 * Lowers a visit to a network in which the asked times are limits.
 *
 * Work goes on without a break: where one event ends the next begins, at the same moment. Events that no asked time begins or ends at
 * are drawn together into one stretch, from the shortest to the longest that they may take together; over a decision that is from the
 * shortest option to the longest. A decision that some asked time does hang on is a scenario an option: from it on, each option has its
 * own moments, while what comes before is shared, so that nobody can act on what is found before it is found. The lanes of parallel
 * work begin together, and where they meet the work goes on at once when the last is over. A wait for a state is over at once when the
 * state is old enough and the work before it done; the length of any other wait is chosen within what is written.
 *
 * @returns undefined when there are more paths than `MOST_PATHS`, or more rounds of a repetition than can be told apart
 */
export function visitNetwork(items: readonly Flow[], asked: readonly AskedTime[]): VisitNetwork | undefined {
  const build = new Build(asked, items);
  return build.list(items, [build.beginning()]) ? build.done() : undefined;
}

/** What happened on the way to a moment. */
interface Path {
  readonly point: number;
  /** what was done since that moment and is not a stretch of its own yet */
  readonly pending: Pending;
  readonly past: Past | undefined;
  readonly when: readonly Assumption[];
  /** moments at which tracks came into the states they are in */
  readonly since: ReadonlyMap<number, { readonly state: string; readonly point: number }>;
}

interface Pending {
  readonly lo: number;
  readonly hi: number;
  readonly flows: Drawn | undefined;
  readonly stated: boolean;
}

/** Events in the order of work, last first: paths share what is before they part. */
interface Drawn {
  readonly flow: Flow;
  readonly before: Drawn | undefined;
}

interface Past {
  readonly id: FlowId;
  readonly end: number;
  readonly before: Past | undefined;
}

const nothing: Pending = { lo: 0, hi: 0, flows: undefined, stated: true };

class Build {
  private points = 1;
  private readonly limits: Limit[] = [];
  private readonly origins: LimitOrigin[] = [];
  private readonly links: ContingentLink[] = [];
  private readonly events: (readonly Flow[])[] = [];
  private readonly joins: Join[] = [];
  private readonly unstated = new Set<number>();
  private readonly ends: ReadonlySet<FlowId>;
  private readonly until: ReadonlyMap<FlowId, readonly number[]>;
  private readonly keys: ReadonlySet<string>;
  /** tracks that some wait waits for a state of */
  private readonly awaited = new Set<number>();
  private readonly hanging = new Map<Flow, boolean>();

  constructor(
    private readonly asked: readonly AskedTime[],
    items: readonly Flow[],
  ) {
    this.ends = new Set(asked.flatMap(({ since }) => (since === undefined ? [] : [since])));
    const until = new Map<FlowId, number[]>();
    asked.forEach((one, index) => {
      until.set(one.until, [...(until.get(one.until) ?? []), index]);
    });
    this.until = until;
    this.keys = new Set(asked.flatMap(({ when }) => when.map(({ key }) => key)));
    const look = (flow: Flow): void => {
      if (flow.type === 'wait' && flow.until) this.awaited.add(flow.until.index);
      for (const inner of innerLists(flow)) inner.forEach(look);
    };
    items.forEach(look);
  }

  beginning(): Path {
    return { point: 0, pending: nothing, past: undefined, when: [], since: new Map() };
  }

  done(): VisitNetwork {
    const { points, limits, links, joins, events, origins, unstated } = this;
    return { network: { points, limits, links, joins }, events, limits: origins, unstated };
  }

  /** The paths after a list of events, or undefined when there are too many to tell apart. */
  list(items: readonly Flow[], paths: readonly Path[]): readonly Path[] | undefined {
    let current = paths;
    for (const flow of items) {
      const next: Path[] = [];
      for (const path of current) {
        const after = this.one(flow, path);
        if (!after) return undefined;
        next.push(...after);
      }
      if (next.length > MOST_PATHS) return undefined;
      current = next;
    }
    return current;
  }

  private one(flow: Flow, before: Path): readonly Path[] | undefined {
    if (flow.type === 'stop') return [];
    if (!this.hangs(flow)) return [later(before, flow, durationOf(flow))];
    const path = this.until.has(flow.id) ? this.begin(flow, before) : before;
    switch (flow.type) {
      case 'step':
      case 'pause':
      case 'plain':
        return [this.end(flow, later(path, flow, flow.duration))];
      case 'wait':
        return [this.end(flow, this.wait(flow, path))];
      case 'call':
        return this.within(flow, flow.items, path);
      case 'verify': {
        const looked = this.end(flow, later(path, flow, flow.duration));
        return this.aside(flow.otherwise ?? [], looked);
      }
      case 'complication':
        return this.aside(flow.items, assume(path, [flow.assumption]) ?? path, path);
      case 'decide': {
        const looked = this.flush(later(path, flow, flow.duration));
        const after: Path[] = [];
        for (const branch of flow.branches) {
          const entered = assume(looked, [branch.assumption, ...branch.also]);
          const left = entered && this.list(branch.items, [entered]);
          if (entered && !left) return undefined;
          after.push(...(left ?? []));
        }
        return flow.branches.length === 0 ? [looked] : after.map((one) => this.end(flow, one));
      }
      case 'together': {
        const fork = this.flush(path);
        let met: readonly (readonly Path[])[] = [[]];
        for (const lane of flow.lanes) {
          const ends = this.lane(lane, fork);
          if (!ends) return undefined;
          met = met.flatMap((others) => ends.map((end) => [...others, end]));
          if (met.length > MOST_PATHS) return undefined;
        }
        return met.map((ends) => this.end(flow, this.meet(fork, ends)));
      }
      case 'repeat': {
        const rounds = flow.atMost ?? Number.POSITIVE_INFINITY;
        if (rounds > MOST_ROUNDS) return undefined;
        const after: Path[] = [];
        let round: readonly Path[] | undefined = [path];
        for (let number = 0; number < rounds; number++) {
          round = this.list(flow.items, round);
          if (!round) return undefined;
          after.push(...round);
        }
        return after.map((one) => this.end(flow, one));
      }
      default:
        return flow satisfies never;
    }
  }

  /** Whether some asked time begins or ends at an event or inside it, or is decided by it. */
  private hangs(flow: Flow): boolean {
    const known = this.hanging.get(flow);
    if (known !== undefined) return known;
    const hangs =
      this.ends.has(flow.id) ||
      this.until.has(flow.id) ||
      (flow.type === 'wait' && (flow.until !== undefined || isChosen(flow))) ||
      (flow.type === 'step' && flow.plan.sets.some((set) => this.awaited.has(set.index))) ||
      (flow.type === 'decide' &&
        flow.branches.some(({ assumption, also }) => [assumption, ...also].some(({ key }) => this.keys.has(key)))) ||
      ((flow.type === 'verify' || flow.type === 'complication') && this.keys.has(`#${flow.id}`)) ||
      innerLists(flow).some((inner) => inner.some((other) => this.hangs(other)));
    this.hanging.set(flow, hangs);
    return hangs;
  }

  /** The moment an event begins, with the times that are asked for up to it. */
  private begin(flow: Flow, before: Path): Path {
    const path = this.flush(before);
    for (const number of this.until.get(flow.id) ?? []) {
      const one = this.asked[number];
      if (!one || !fits(one.when, path.when)) continue;
      const start = one.since === undefined ? 0 : endOf(path.past, one.since);
      if (start === undefined) continue;
      this.origins.push({ type: 'asked', asked: number, start, until: path.point });
      this.limits.push({ from: start, to: path.point, lo: one.least, hi: one.most });
    }
    return path;
  }

  /** The moment an event ends. */
  private end(flow: Flow, before: Path): Path {
    const path = this.flush(before);
    const since = new Map(path.since);
    if (flow.type === 'step')
      for (const set of flow.plan.sets)
        if (this.awaited.has(set.index)) since.set(set.index, { state: set.state, point: path.point });
    return { ...path, since, past: { id: flow.id, end: path.point, before: path.past } };
  }

  private wait(flow: WaitFlow, before: Path): Path {
    const path = this.flush(before);
    const { duration, until } = flow;
    if (until) {
      const began = path.since.get(until.index);
      const delay = until.seconds;
      // It began before the visit, or is not the state waited for, which is told: then it takes what it may take.
      if (!began || began.state !== until.state) return later(path, flow, duration);
      return this.join(path, [
        { from: path.point, delay: 0 },
        { from: began.point, delay },
      ]);
    }
    // How long a state lasts before it passes by itself, nobody decides.
    if (flow.passing) return later(path, flow, duration);
    const point = this.points++;
    this.origins.push({ type: 'chosen', wait: flow });
    this.limits.push({ from: path.point, to: point, lo: duration.lo, hi: duration.hi });
    return { ...path, point };
  }

  private within(flow: Flow, items: readonly Flow[], path: Path): readonly Path[] | undefined {
    return this.list(items, [path])?.map((one) => this.end(flow, one));
  }

  /** Something that happens or not. */
  private aside(items: readonly Flow[], happens: Path, not: Path = happens): readonly Path[] | undefined {
    const after = this.list(items, [happens]);
    return after && [not, ...after];
  }

  private lane(lane: Lane, fork: Path): readonly Path[] | undefined {
    return this.list(lane.items, [fork])?.map((path) => this.flush(path));
  }

  private meet(fork: Path, ends: readonly Path[]): Path {
    const since = new Map(fork.since);
    let { past } = fork;
    let when = fork.when;
    for (const end of ends) {
      for (const [index, began] of end.since) if (began !== fork.since.get(index)) since.set(index, began);
      for (const one of pastAfter(end.past, fork.past)) past = { ...one, before: past };
      when = assume({ ...fork, when }, end.when)?.when ?? when;
    }
    const met = { ...fork, past, when, since };
    const points = [...new Set(ends.map((end) => end.point))].filter((point) => point !== fork.point);
    const [only] = points;
    if (only === undefined) return met;
    if (points.length === 1) return { ...met, point: only };
    return this.join(
      met,
      points.map((from) => ({ from, delay: 0 })),
    );
  }

  private join(path: Path, after: Join['after']): Path {
    const point = this.points++;
    this.joins.push({ point, after });
    return { ...path, point };
  }

  /** Gives what was drawn together a stretch of its own. */
  private flush(path: Path): Path {
    const { pending } = path;
    if (pending.hi === 0 && pending.lo === 0) return pending === nothing ? path : { ...path, pending: nothing };
    const point = this.points++;
    if (!pending.stated) this.unstated.add(this.links.length);
    this.links.push({
      from: path.point,
      to: point,
      lo: pending.lo,
      hi: Number.isFinite(pending.hi) ? pending.hi : Math.max(pending.lo, ENDLESS),
    });
    this.events.push(inOrder(pending.flows));
    return { ...path, point, pending: nothing };
  }
}

function later(path: Path, flow: Flow, duration: { lo: number; hi: number; stated: boolean }): Path {
  if (duration.hi === 0) return path;
  const { lo, hi, flows, stated } = path.pending;
  return {
    ...path,
    pending: {
      lo: lo + duration.lo,
      hi: hi + duration.hi,
      flows: { flow, before: flows },
      stated: stated && duration.stated,
    },
  };
}

/** The path on which this was found as well; undefined when it contradicts what was found before. */
function assume(path: Path, found: readonly Assumption[]): Path | undefined {
  let when = path.when;
  for (const assumption of found) {
    const known = when.find(({ key }) => key === assumption.key);
    const values = known
      ? new Set([...known.values].filter((value) => assumption.values.has(value)))
      : assumption.values;
    if (values.size === 0) return undefined;
    when = [...when.filter((other) => other !== known), { ...assumption, values }];
  }
  return { ...path, when };
}

function fits(wanted: readonly Assumption[], found: readonly Assumption[]): boolean {
  return wanted.every((one) => {
    const other = found.find(({ key }) => key === one.key);
    return !other || [...one.values].some((value) => other.values.has(value));
  });
}

function endOf(past: Past | undefined, id: FlowId): number | undefined {
  for (let one = past; one; one = one.before) if (one.id === id) return one.end;
  return undefined;
}

/** What came after `past`, earliest first. */
function pastAfter(end: Past | undefined, past: Past | undefined): Past[] {
  const list: Past[] = [];
  for (let one = end; one && one !== past; one = one.before) list.unshift(one);
  return list;
}

function inOrder(drawn: Drawn | undefined): readonly Flow[] {
  const flows: Flow[] = [];
  for (let one = drawn; one; one = one.before) flows.push(one.flow);
  return flows.reverse();
}
