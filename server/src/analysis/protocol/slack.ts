import { type Activity, type ActivityTimes, type CriticalPath, criticalPath } from '../time/critical-path.ts';
import { durationOf, listDuration, stops } from './durations.ts';
import { type Flow, type FlowId, innerLists } from './flow.ts';
import type { Beginnings } from './windows.ts';

/**
 * How much longer each event may take until the longest run that it is part of takes longer: seconds, 0 where every second counts,
 * Infinity where something beside it has no stated length. All durations are as long as they may be; of a decision that an event does
 * not stand in, the longest option counts, and of one it does stand in, its own. Work that ends in a `stop` is measured to the stop.
 *
 * Critical path method with activities on the nodes (time/critical-path.ts), in which a soak is an activity beside the work: a wait for
 * a state comes after what brought the state about, and the time it has to last.
 *
 */
export function slackOf(items: readonly Flow[], began: Beginnings): ReadonlyMap<FlowId, number> {
  const slack = new Map<FlowId, number>();
  const runs: Runs[] = [{ items, start: 0, over: () => undefined }];
  for (let next = runs.pop(); next !== undefined; next = runs.pop()) {
    const graph = new Graph(began, next);
    for (const [id, seconds] of graph.slack()) slack.set(id, seconds);
    runs.push(...graph.apart());
  }
  return slack;
}

/** Runs that end with a list of events: the visit's own, or one that stops. */
interface Runs {
  readonly items: readonly Flow[];
  /** when the list begins, seconds, in the longest run */
  readonly start: number;
  /** when an event before the list is over in it */
  readonly over: (id: FlowId) => number | undefined;
}

/** An option of a decision, or what may happen or not. Numbers are those of activities. */
interface Option extends Stretch {
  readonly decision: Stretch;
  readonly lane: Lane | undefined;
  /** that it stands in */
  readonly around: Option | undefined;
}

/** A lane among others that go on at the same time. */
interface Lane extends Stretch {
  readonly all: readonly Lane[];
  /** that these stand in */
  readonly around: Lane | undefined;
}

/** Activities that were added one after the other: from the first to before `to`. */
interface Stretch {
  from: number;
  to: number;
}

/**
 * Seconds; stands for a length that nothing states. Long enough to be shared among the endless events of a list, short enough for sums
 * to be right to a thousandth of a second.
 */
const ENDLESS = 1e11;

/** Longer than the stated lengths of a visit come to, seconds: slack of more than that comes from an endless length. */
const LONGEST = 1e7;

class Graph {
  private readonly activities: Activity<number>[] = [];
  private readonly of = new Map<FlowId, { readonly activity: number; readonly option: Option | undefined }>();
  /** where an event is over */
  private readonly over = new Map<FlowId, number>();
  private readonly soaks: { readonly activity: number; readonly since: number; readonly until: number }[] = [];
  private lane: Lane | undefined;

  /** work that no run comes out of, and what it begins after */
  private readonly stopping: { readonly items: readonly Flow[]; readonly after: number }[] = [];
  private readonly path: CriticalPath<number>;

  constructor(
    private readonly began: Beginnings,
    private readonly runs: Runs,
  ) {
    this.list(runs.items, [this.add(runs.start, [])], undefined);
    this.path = criticalPath(this.activities);
  }

  /**
   * Adds a list of events after some activities.
   * @param length of the whole list, where something in it is endless
   * @returns the activities after which it is over
   */
  private list(
    items: readonly Flow[],
    after: readonly number[],
    option: Option | undefined,
    length = ENDLESS,
  ): number[] {
    let last = [...after];
    let rest = length - items.reduce((sum, flow) => sum + finite(durationOf(flow)), 0);
    let endless = items.filter((flow) => !Number.isFinite(durationOf(flow).hi)).length;
    for (const flow of items) {
      const share = Number.isFinite(durationOf(flow).hi) ? 0 : Math.max(0, Math.floor(rest / endless--));
      rest -= share;
      last = [this.one(flow, last, option, share)];
    }
    return last;
  }

  slack(): Map<FlowId, number> {
    const found = new Map<FlowId, number>();
    const at = (activity: number) => this.timesOf(activity)?.slack ?? 0;
    // Not only through its beginning: a soak may end in it that began before.
    const least = ({ from, to }: Stretch) => {
      let seconds = Number.POSITIVE_INFINITY;
      for (let activity = from; activity < to; activity++) seconds = Math.min(seconds, at(activity));
      return seconds;
    };
    const leasts = new Map<readonly Lane[], readonly (readonly [number, Lane])[]>();
    const leastBeside = (lane: Lane | undefined): number => {
      let seconds = Number.POSITIVE_INFINITY;
      for (let one = lane; one; one = one.around) {
        const { all } = one;
        const two =
          leasts.get(all) ??
          all
            .map((other): readonly [number, Lane] => [least(other), other])
            .sort(([a], [b]) => a - b)
            .slice(0, 2);
        leasts.set(all, two);
        const [beside] = two.find(([, other]) => other !== one) ?? [];
        seconds = Math.min(seconds, beside ?? Number.POSITIVE_INFINITY);
      }
      return seconds;
    };
    const shorter = new Map<Option, number>();
    // How much shorter than the longest run of all the longest one is that takes an option: it leads through it or past the decision.
    const offset = (option: Option): number => {
      const known = shorter.get(option);
      if (known !== undefined) return known;
      const { decision, lane } = option;
      const spanning = this.soaks.filter(
        ({ since, until }) => since < decision.from && until >= decision.to && isInRunOf(option.around, since, until),
      );
      const seconds = Math.min(least(option), leastBeside(lane), ...spanning.map(({ activity }) => at(activity)));
      shorter.set(option, seconds);
      return seconds;
    };
    for (const [id, { activity, option }] of this.of) {
      const seconds = at(activity) - (option ? offset(option) : 0);
      found.set(id, seconds > LONGEST ? Number.POSITIVE_INFINITY : Math.max(0, Math.round(seconds * 1000) / 1000));
    }
    return found;
  }

  /** Work that ends in a stop. */
  apart(): Runs[] {
    const finish = (activity: number) => this.timesOf(activity)?.earliestFinish;
    return this.stopping.map(({ items, after }) => ({
      items,
      start: finish(after) ?? 0,
      over: (id) => {
        const activity = this.over.get(id);
        return activity === undefined ? this.runs.over(id) : finish(activity);
      },
    }));
  }

  /** What waits comes after what it waits for, so there is no cycle. */
  private timesOf(activity: number): ActivityTimes | undefined {
    return this.path.ok ? this.path.times.get(activity) : undefined;
  }

  private one(flow: Flow, after: readonly number[], option: Option | undefined, endless: number): number {
    const own = Number.isFinite(flow.duration.hi) ? flow.duration.hi : Math.max(flow.duration.lo, endless);
    const over = this.inside(flow, after, option, own, endless);
    this.over.set(flow.id, over);
    return over;
  }

  private inside(
    flow: Flow,
    after: readonly number[],
    option: Option | undefined,
    own: number,
    endless: number,
  ): number {
    const begin = (duration: number) => {
      const activity = this.add(duration, after);
      this.of.set(flow.id, { activity, option });
      return activity;
    };
    switch (flow.type) {
      case 'step':
      case 'pause':
      case 'plain':
      case 'stop':
        return begin(own);
      case 'wait': {
        if (!flow.until) return begin(own);
        const { seconds } = flow.until;
        const soaks = this.began(flow).flatMap((since) => {
          const began = since === undefined ? undefined : this.over.get(since);
          if (began !== undefined) return [{ activity: this.add(seconds, [began]), since: began }];
          // Before this list, or before the visit; else it comes round again, and nothing here has to be done first.
          const before = since === undefined ? 0 : this.runs.over(since);
          return before === undefined ? [] : [{ activity: this.add(before + seconds, []), since: -1 }];
        });
        const activity = this.add(0, [...after, ...soaks.map((soak) => soak.activity)]);
        for (const soak of soaks) this.soaks.push({ ...soak, until: activity });
        this.of.set(flow.id, { activity, option });
        return activity;
      }
      case 'call': {
        if (flow.duration.hi > 0) {
          const activity = begin(own);
          // As a whole it takes what it says; its steps share its slack.
          for (const inner of flow.items) this.share(inner, activity, option);
          return activity;
        }
        return this.add(0, this.list(flow.items, [begin(0)], option, endless));
      }
      case 'repeat': {
        const round = listDuration(flow.items).hi;
        const last = this.list(flow.items, [begin(0)], option, endless);
        if (!Number.isFinite(round)) return this.add(0, last);
        return this.add(flow.atMost === undefined ? Math.max(0, endless - round) : round * (flow.atMost - 1), last);
      }
      case 'together': {
        const fork = begin(0);
        const around = this.lane;
        const all: Lane[] = [];
        for (const _ of flow.lanes) all.push({ from: 0, to: 0, all, around });
        const ends = flow.lanes.flatMap(({ items }, i) => {
          const lane = all[i];
          if (!lane) return [];
          this.lane = lane;
          lane.from = this.add(0, [fork]);
          const last = this.list(items, [lane.from], option, endless);
          lane.to = this.activities.length;
          return last;
        });
        this.lane = around;
        return this.add(0, [fork, ...ends]);
      }
      case 'decide':
      case 'verify':
      case 'complication': {
        const looked = begin(own);
        const options = innerLists(flow);
        for (const items of options) if (stops(items)) this.stopping.push({ items, after: looked });
        const decision = { from: looked, to: looked };
        const ends = options.flatMap((items) => {
          if (stops(items)) return [];
          const taken = { from: this.add(0, [looked]), to: 0, decision, lane: this.lane, around: option };
          const last = this.list(items, [taken.from], taken, endless - own);
          taken.to = this.activities.length;
          return last;
        });
        decision.to = this.activities.length;
        return this.add(0, [looked, ...ends]);
      }
      default:
        return flow satisfies never;
    }
  }

  private share(flow: Flow, activity: number, option: Option | undefined): void {
    this.of.set(flow.id, { activity, option });
    this.over.set(flow.id, activity);
    for (const items of innerLists(flow)) for (const inner of items) this.share(inner, activity, option);
  }

  private add(duration: number, after: readonly number[]): number {
    const name = this.activities.length;
    this.activities.push({ name, duration, after: [...new Set(after)] });
    return name;
  }
}

/** Whether a soak belongs to a run that takes an option: it neither begins nor ends in another one of the same decision. */
function isInRunOf(option: Option | undefined, since: number, until: number): boolean {
  for (let one = option; one; one = one.around) {
    const { decision, from, to } = one;
    const inside = (activity: number) => activity >= from && activity < to;
    if (!(since < decision.from || inside(since)) || !(until >= decision.to || inside(until))) return false;
  }
  return true;
}

function finite({ lo, hi }: { readonly lo: number; readonly hi: number }): number {
  return Number.isFinite(hi) ? hi : lo;
}
