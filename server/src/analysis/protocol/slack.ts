import { type Activity, criticalPath } from '../time/critical-path.ts';
import { durationOf, listDuration, stops } from './durations.ts';
import { type Flow, type FlowId, innerLists, type WaitFlow } from './flow.ts';

/**
 * How much longer each event may take until the longest run that it is part of takes longer: seconds, 0 where every second counts,
 * Infinity where something beside it has no stated length. All durations are as long as they may be; of a decision that an event does
 * not stand in, the longest option counts, and of one it does stand in, its own. Work that ends in a `stop` is measured to the stop.
 *
 * Critical path method with activities on the nodes (time/critical-path.ts), in which a soak is an activity beside the work: a wait for
 * a state comes after what brought the state about, and the time it has to last.
 *
 * @param began the events at whose end the state may have begun that a wait is for; undefined for one from before the visit
 */
export function slackOf(
  items: readonly Flow[],
  began: (wait: WaitFlow) => readonly (FlowId | undefined)[],
): ReadonlyMap<FlowId, number> {
  const slack = new Map<FlowId, number>();
  const lists: (readonly Flow[])[] = [items];
  for (let list = lists.pop(); list !== undefined; list = lists.pop()) {
    const graph = new Graph(began, lists);
    graph.list(list, [], undefined);
    for (const [id, seconds] of graph.slack()) slack.set(id, seconds);
  }
  return slack;
}

/** An option of a decision, or what may happen or not. Numbers are those of activities. */
interface Option {
  readonly begin: number;
  readonly decision: { readonly begin: number; over: number };
  /** beginnings of the lanes beside it, of all parallel work around it */
  readonly beside: readonly number[];
}

/** Longer than any work at the chair, seconds: stands for a length that nothing states. */
const ENDLESS = 1e9;

class Graph {
  private readonly activities: Activity<number>[] = [];
  private readonly of = new Map<FlowId, { readonly activity: number; readonly option: Option | undefined }>();
  /** where an event is over */
  private readonly over = new Map<FlowId, number>();
  private readonly soaks: { readonly activity: number; readonly since: number; readonly until: number }[] = [];
  private beside: readonly number[] = [];

  constructor(
    private readonly began: (wait: WaitFlow) => readonly (FlowId | undefined)[],
    /** work that no run comes out of, to be looked at by itself */
    private readonly apart: (readonly Flow[])[],
  ) {}

  /**
   * Adds a list of events after some activities.
   * @param length of what is endless in it: exactly so much that the whole list is
   * @returns the activities after which it is over
   */
  list(items: readonly Flow[], after: readonly number[], option: Option | undefined, length = ENDLESS): number[] {
    let last = [...after];
    let rest = length - items.reduce((sum, flow) => sum + finite(durationOf(flow)), 0);
    for (const flow of items) {
      const endless = !Number.isFinite(durationOf(flow).hi);
      last = [this.one(flow, last, option, endless ? Math.max(0, rest) : 0)];
      if (endless) rest = 0;
    }
    return last;
  }

  slack(): Map<FlowId, number> {
    const found = new Map<FlowId, number>();
    const path = criticalPath(this.activities);
    // What waits comes after what it waits for, so there is no cycle.
    if (!path.ok) return found;
    const at = (activity: number) => path.times.get(activity)?.slack ?? 0;
    const shorter = new Map<Option, number>();
    // How much shorter than the longest run of all the longest one is that takes an option: it leads through it or past the decision.
    const offset = (option: Option): number => {
      const known = shorter.get(option);
      if (known !== undefined) return known;
      const { decision, begin, beside } = option;
      const spanning = this.soaks.filter(({ since, until }) => since < decision.begin && until > decision.over);
      const seconds = Math.min(at(begin), ...beside.map(at), ...spanning.map(({ activity }) => at(activity)));
      shorter.set(option, seconds);
      return seconds;
    };
    for (const [id, { activity, option }] of this.of) {
      const seconds = at(activity) - (option ? offset(option) : 0);
      found.set(id, seconds > ENDLESS / 2 ? Number.POSITIVE_INFINITY : Math.max(0, seconds));
    }
    return found;
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
          // It began before the visit, or comes round again: nothing here has to be done first.
          if (since !== undefined && began === undefined) return [];
          const activity = this.add(seconds, began === undefined ? [] : [began]);
          return [{ activity, since: began ?? -1 }];
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
        const lanes = flow.lanes.map(() => this.add(0, [fork]));
        const around = this.beside;
        const ends = flow.lanes.flatMap(({ items }, i) => {
          this.beside = [...around, ...lanes.filter((_, other) => other !== i)];
          return this.list(items, lanes.slice(i, i + 1), option, endless);
        });
        this.beside = around;
        return this.add(0, [fork, ...ends]);
      }
      case 'decide':
      case 'verify':
      case 'complication': {
        const looked = begin(own);
        const options = innerLists(flow);
        this.apart.push(...options.filter(stops));
        const decision = { begin: looked, over: looked };
        const ends = options.flatMap((items) => {
          if (stops(items)) return [];
          const first = this.add(0, [looked]);
          return this.list(items, [first], { begin: first, decision, beside: this.beside }, endless - own);
        });
        decision.over = this.add(0, [looked, ...ends]);
        return decision.over;
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

function finite({ lo, hi }: { readonly lo: number; readonly hi: number }): number {
  return Number.isFinite(hi) ? hi : lo;
}
