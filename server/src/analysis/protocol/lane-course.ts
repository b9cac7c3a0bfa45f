import { isChosen } from './clocks.ts';
import { type Assumption, type Flow, forEachFlow, type WaitFlow } from './flow.ts';

/**
 * When, counted from the moment the lanes of parallel work begin, something comes; seconds, may be endless. Work lasts as long as it
 * lasts; how long some waits last the team chooses. So a time has four ends.
 */
export interface Moment {
  /** all work quick, all waits short */
  readonly least: number;
  /** all work slow, all waits long */
  readonly most: number;
  /** all work quick, the waits that the team chooses long */
  readonly held: number;
  /** all work slow, the waits that the team chooses short */
  readonly hurried: number;
}

/** What came before in a lane, last first. */
export interface Stretch {
  readonly flow: Flow;
  /** seconds */
  readonly lo: number;
  readonly hi: number;
  readonly chosen: boolean;
  /** a wait that is over when a state is so old: for how long, and how many stretches had passed when the state began */
  readonly until: { readonly seconds: number; readonly since: number } | undefined;
  /** how many there are with this one */
  readonly depth: number;
  readonly before: Stretch | undefined;
}

/** One course that work in a lane can take. */
export interface Course {
  readonly at: Moment;
  readonly stretch: Stretch | undefined;
  readonly when: readonly Assumption[];
  readonly aside: boolean;
  readonly open: readonly Flow[];
  /** by number of its track, the state that was made in this lane, when, and how many stretches had passed then */
  readonly made: ReadonlyMap<number, { readonly state: string; readonly at: Moment; readonly depth: number }>;
}

/** Where a lane begins. */
export function beginning(found: readonly Assumption[]): Course {
  return { at: ZERO, stretch: undefined, when: found, aside: false, open: [], made: new Map() };
}

/** The time at which stretches are over, if each work in them lasts `work` of the way from its shortest to its longest, each chosen wait `waits`. */
export function timeAfter(last: Stretch | undefined, work: number, waits: number): number {
  const stretches = stretchesUpTo(last);
  const times = [0];
  for (const stretch of stretches) {
    const now = times.at(-1) ?? 0;
    times.push(
      stretch.until
        ? Math.max(now, (times[stretch.until.since] ?? 0) + stretch.until.seconds)
        : now + lengthOf(stretch, work, waits),
    );
  }
  return times.at(-1) ?? 0;
}

/** Seconds; the same fractions. */
export function lengthOf(stretch: Stretch, work: number, waits: number): number {
  const part = stretch.chosen ? waits : work;
  return part === 0 ? stretch.lo : part === 1 ? stretch.hi : stretch.lo + part * (stretch.hi - stretch.lo);
}

/** In the order of time. */
export function stretchesUpTo(last: Stretch | undefined): readonly Stretch[] {
  const list: Stretch[] = [];
  for (let one = last; one; one = one.before) list.push(one);
  return list.reverse();
}

/** What must have been found for both; undefined when they contradict each other. */
export function both(a: readonly Assumption[], b: readonly Assumption[]): readonly Assumption[] | undefined {
  let all = a;
  for (const one of b) {
    const known = all.find(({ key }) => key === one.key);
    if (!known) {
      all = [...all, one];
      continue;
    }
    const values = new Set([...known.values].filter((value) => one.values.has(value)));
    if (values.size === 0) return undefined;
    all = all.map((other) => (other === known ? { ...one, values } : other));
  }
  return all;
}

/** A course after a wait: for a state begun in this lane, when that is old enough and the work before is done. */
export function waited(flow: WaitFlow, course: Course): Course {
  const { duration } = flow;
  const state = awaited(flow);
  if (!state) return later(course, flow, duration, isChosen(flow));
  const { index, seconds } = state;
  const began = course.made.get(index);
  if (began?.state !== state.since || !Number.isFinite(seconds)) {
    // The state began before the lanes, or in another of them: how much of its time has passed is not known here.
    const after = without(later(course, flow, duration, false), new Set([index]));
    return duration.hi > 0 ? { ...after, open: opened(after.open, flow) } : after;
  }
  const { stretch } = course;
  const join = (of: (moment: Moment) => number) => Math.max(of(course.at), of(began.at) + seconds);
  const at: Moment = {
    least: join(({ least }) => least),
    most: join(({ most }) => most),
    held: join(({ held }) => held),
    hurried: join(({ hurried }) => hurried),
  };
  const depth = (stretch?.depth ?? 0) + 1;
  const until = { seconds, since: began.depth };
  const made = flow.passing ? new Map(course.made).set(index, { state: flow.passing.state, at, depth }) : course.made;
  return { ...course, at, made, stretch: { flow, lo: 0, hi: seconds, chosen: false, until, depth, before: stretch } };
}

/** What a wait is for: that a state is so many seconds old. */
function awaited({ until, passing, duration }: WaitFlow) {
  if (until) return { index: until.index, since: until.state, seconds: until.seconds };
  // It passes into another by itself when it has lasted as long as it does.
  return passing && { index: passing.index, since: passing.from, seconds: duration.hi };
}

/** A course after an event of a length of its own; `chosen`: by the team, within what is written. */
export function later(
  course: Course,
  flow: Flow,
  { lo, hi, stated }: { readonly lo: number; readonly hi: number; readonly stated: boolean },
  chosen: boolean,
): Course {
  if (hi === 0) return course;
  const { at, stretch, open } = course;
  return {
    ...course,
    at: {
      least: at.least + lo,
      most: at.most + hi,
      held: at.held + (chosen ? hi : lo),
      hurried: at.hurried + (chosen ? lo : hi),
    },
    stretch: { flow, lo, hi, chosen, until: undefined, depth: (stretch?.depth ?? 0) + 1, before: stretch },
    // `wait at least 5 min` is stated to be left to the team.
    open: stated || chosen ? open : opened(open, flow),
  };
}

/** A course after an event that is taken as one stretch, over at a moment; of what it may have changed, nothing is known. */
export function arriving(
  course: Course,
  flow: Flow,
  at: Moment,
  open: readonly Flow[],
  changed: ReadonlySet<number>,
): Course {
  const { stretch } = course;
  const lo = at.least - course.at.least;
  const hi = gap(at.most, course.at.most);
  return {
    ...without(course, changed),
    at,
    open,
    stretch: { flow, lo, hi, chosen: false, until: undefined, depth: (stretch?.depth ?? 0) + 1, before: stretch },
  };
}

/** From the earliest to the latest of several courses' ends. */
export function hull(courses: readonly Course[]): Moment {
  return {
    least: Math.min(...courses.map(({ at }) => at.least)),
    held: Math.min(...courses.map(({ at }) => at.held)),
    most: Math.max(...courses.map(({ at }) => at.most)),
    hurried: Math.max(...courses.map(({ at }) => at.hurried)),
  };
}

/** What of unknown length several courses hang on. */
export function openIn(courses: readonly Course[]): readonly Flow[] {
  return courses.flatMap(({ open }) => open).reduce(opened, []);
}

/** With one more of them. */
export function opened(open: readonly Flow[], flow: Flow): readonly Flow[] {
  return open.length >= MOST_OPEN || open.includes(flow) ? open : [...open, flow];
}

/** The tracks that events set a state on. */
export function setIn(items: readonly Flow[]): ReadonlySet<number> {
  const set = new Set<number>();
  forEachFlow(items, (flow) => {
    if (flow.type === 'step') for (const { index } of flow.plan.sets) set.add(index);
  });
  return set;
}

/** A course of which it is no longer known what state some tracks are in. */
export function without(course: Course, changed: ReadonlySet<number>): Course {
  if (changed.size === 0) return course;
  return { ...course, made: new Map([...course.made].filter(([index]) => !changed.has(index))) };
}

/** Seconds between two times of which the later may be endless. */
export function gap(later: number, earlier: number): number {
  return Number.isFinite(later) ? later - earlier : Number.POSITIVE_INFINITY;
}

/** Nothing, endlessly often, is nothing. */
export function times(seconds: number, often: number): number {
  return seconds === 0 ? 0 : seconds * often;
}

const ZERO: Moment = { least: 0, most: 0, held: 0, hurried: 0 };

/** Events of unknown length that are named; more say nothing more. */
const MOST_OPEN = 4;
