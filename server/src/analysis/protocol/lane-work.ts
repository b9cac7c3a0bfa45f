import { isChosen } from './clocks.ts';
import { listDuration } from './durations.ts';
import {
  type Assumption,
  type Flow,
  forEachFlow,
  type Lane,
  type RepeatFlow,
  type TogetherFlow,
  type WaitFlow,
} from './flow.ts';
import { labelOf } from './flow-words.ts';
import { type Hands, handsFor } from './who-works.ts';

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

/** A stretch in which people are at work in a lane. */
export interface Work {
  readonly flow: Flow;
  readonly hands: Hands;
  readonly begins: Moment;
  readonly ends: Moment;
  /** what must have been found for it to come */
  readonly when: readonly Assumption[];
  /** it stands in something that may happen or not: a complication, a check that fails, a further round */
  readonly aside: boolean;
  /** what comes before it in its lane */
  readonly before: Stretch | undefined;
  /** the first few events whose length cannot be told and that its times hang on */
  readonly open: readonly Flow[];
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
interface Course {
  readonly at: Moment;
  readonly stretch: Stretch | undefined;
  readonly when: readonly Assumption[];
  readonly aside: boolean;
  readonly open: readonly Flow[];
  /** by number of its track, the state that was made in this lane, when, and how many stretches had passed then */
  readonly made: ReadonlyMap<number, { readonly state: string; readonly at: Moment; readonly depth: number }>;
}

/** What a walk through a lane goes by, and what it gathers. */
interface Walk {
  readonly team: ReadonlySet<string>;
  readonly work: Work[];
  /** roles of the lane or call around */
  readonly asked: readonly string[];
  /** in a further round of a repetition: those inside it are not told apart by rounds, or they would multiply */
  readonly further: boolean;
  /** how many courses may come of one */
  readonly most: number;
}

/** Events of unknown length that are named; more say nothing more. */
const MOST_OPEN = 4;

/** More courses than this are not told apart: what differs is drawn together, from the shortest to the longest. */
const MOST_COURSES = 16;

/**
 * Everything that people do in a lane, with the times it may come at. The options of a decision are told apart; repetitions, a nested
 * `together` and a decision after too many others are drawn together, so that times may be too wide and are never too narrow.
 *
 * @param asked roles of what the parallel work stands in
 * @param found what was found where it begins
 */
export function workIn(
  lane: Lane,
  asked: readonly string[],
  found: readonly Assumption[],
  team: ReadonlySet<string>,
): readonly Work[] {
  const work: Work[] = [];
  const start: Course = { at: ZERO, stretch: undefined, when: found, aside: false, open: [], made: new Map() };
  const walk: Walk = { team, work, asked: rolesOf(lane, asked), further: false, most: MOST_COURSES };
  walkList(walk, lane.items, [start]);
  return work;
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

const ZERO: Moment = { least: 0, most: 0, held: 0, hurried: 0 };

/** The courses that come out of a list of events. */
function walkList(walk: Walk, items: readonly Flow[], courses: readonly Course[]): readonly Course[] {
  let current = courses;
  for (const flow of items) {
    const inner = { ...walk, most: walk.most / current.length };
    current = current.flatMap((course) => walkOne(inner, flow, course));
    if (current.length === 0) break;
  }
  return current;
}

function walkOne(walk: Walk, flow: Flow, course: Course): readonly Course[] {
  switch (flow.type) {
    case 'step': {
      const done = doing(walk, flow, course);
      if (flow.plan.sets.length === 0) return [done];
      const made = new Map(done.made);
      for (const { index, state } of flow.plan.sets)
        made.set(index, { state, at: done.at, depth: done.stretch?.depth ?? 0 });
      return [{ ...done, made }];
    }
    case 'pause':
    case 'plain':
      return [doing(walk, flow, course)];
    case 'wait':
      return [wait(flow, course)];
    case 'call':
      if (flow.duration.hi > 0) return [without(doing(walk, flow, course), setIn(flow.items))];
      return walkList({ ...walk, asked: rolesOf(flow, walk.asked) }, flow.items, [course]);
    case 'stop':
      return [];
    case 'verify': {
      const looked = doing(walk, flow, course);
      if (!flow.otherwise) return [looked];
      const fails: Assumption = {
        key: `#${flow.id}`,
        values: new Set(['yes']),
        of: 2,
        say: (values) => `"${flow.label}" is ${values.has('yes') ? 'not ' : ''}as it should be`,
      };
      return aside(walk, flow, flow.otherwise, looked, fails);
    }
    case 'complication':
      return aside(walk, flow, flow.items, course, flow.assumption);
    case 'decide': {
      const looked = doing(walk, flow, course);
      if (flow.branches.length === 0) return [looked];
      const ways = flow.branches.flatMap((branch) => {
        const when = both(looked.when, [branch.assumption, ...branch.also]);
        return when ? [{ from: { ...looked, when }, items: branch.items }] : [];
      });
      return choice(walk, flow, looked, ways);
    }
    case 'together':
      return walkTogether(walk, flow, course);
    case 'repeat':
      return walkRepeat(walk, flow, course);
    default:
      return flow satisfies never;
  }
}

/** Somebody is at it for as long as it lasts. */
function doing(walk: Walk, flow: Flow, course: Course): Course {
  if (flow.duration.hi === 0) return course;
  const done = later(course, flow, flow.duration, false);
  const hands = handsFor(flow, walk.asked, walk.team);
  const { at, stretch, when, aside } = course;
  walk.work.push({ flow, hands, begins: at, ends: done.at, when, aside, before: stretch, open: done.open });
  return done;
}

/** Something that may happen or not. */
function aside(walk: Walk, flow: Flow, items: readonly Flow[], course: Course, happens: Assumption): readonly Course[] {
  const yes = both(course.when, [happens]);
  const no = both(course.when, [{ ...happens, values: new Set(['no']) }]);
  return choice(walk, flow, course, [
    ...(no ? [{ from: { ...course, when: no }, items: [] }] : []),
    ...(yes ? [{ from: { ...course, when: yes, aside: true }, items }] : []),
  ]).map((end) => (end.aside === course.aside ? end : { ...end, aside: course.aside }));
}

/** Several ways on: each for itself, or all drawn together where that would be too many. */
function choice(
  walk: Walk,
  flow: Flow,
  before: Course,
  ways: readonly { readonly from: Course; readonly items: readonly Flow[] }[],
): readonly Course[] {
  const ends = ways.flatMap(({ from, items }) => walkList(walk, items, [from]));
  // Nothing takes time or changes anything on any of them.
  if (ends.length === ways.length && ends.every((end, number) => end === ways[number]?.from)) return [before];
  if (ends.length <= Math.max(1, walk.most)) return ends;
  const changed = ends.flatMap((end) =>
    [...end.made.keys()].filter((key) => end.made.get(key) !== before.made.get(key)),
  );
  return [arriving(before, flow, hull(ends), openIn(ends), new Set(changed))];
}

function walkTogether(walk: Walk, flow: TogetherFlow, course: Course): readonly Course[] {
  if (flow.lanes.length === 0) return [course];
  const lanes = flow.lanes.map((lane) => walkList({ ...walk, asked: rolesOf(lane, walk.asked) }, lane.items, [course]));
  // One lane that no course comes out of, and none comes out of them all.
  if (lanes.some((ends) => ends.length === 0)) return [];
  const hulls = lanes.map(hull);
  const last = (of: (moment: Moment) => number) => Math.max(...hulls.map(of));
  const at: Moment = {
    least: last(({ least }) => least),
    most: last(({ most }) => most),
    held: last(({ held }) => held),
    hurried: last(({ hurried }) => hurried),
  };
  return [arriving(course, flow, at, openIn(lanes.flat()), setIn(flow.lanes.flatMap((lane) => lane.items)))];
}

/** The first round, then all further ones drawn together: from where the second can begin to where the last can. */
function walkRepeat(walk: Walk, flow: RepeatFlow, course: Course): readonly Course[] {
  const rounds = flow.atMost ?? Number.POSITIVE_INFINITY;
  const made = setIn(flow.items);
  const after = (once: Moment, least: number, most: number): Moment => ({
    least: course.at.least + times(gap(once.least, course.at.least), least),
    held: course.at.held + times(gap(once.held, course.at.held), least),
    most: course.at.most + times(gap(once.most, course.at.most), most),
    hurried: course.at.hurried + times(gap(once.hurried, course.at.hurried), most),
  });
  const unlimited = flow.atMost === undefined;
  if (walk.further) {
    const body = later(course, flow, listDuration(flow.items), false);
    const open = unlimited ? opened(body.open, flow) : body.open;
    const any = arriving(course, flow, after(body.at, 0, rounds - 1), open, made);
    const ends = walkList(walk, flow.items, [any]);
    return ends.length === 0 ? [] : [arriving(course, flow, after(body.at, 1, rounds), open, made)];
  }
  const ends = walkList(walk, flow.items, [course]);
  if (ends.length === 0) return [];
  const once = hull(ends);
  const open = unlimited ? opened(openIn(ends), flow) : openIn(ends);
  if (rounds > 1) {
    const when = both(course.when, [
      {
        key: `#${flow.id}`,
        values: new Set(['again']),
        of: 2,
        say: () => `${labelOf(flow)} goes on to a further round`,
      },
    ]);
    const again = arriving(course, flow, after(once, 1, rounds - 1), open, made);
    walkList({ ...walk, further: true }, flow.items, [{ ...again, when: when ?? course.when, aside: true }]);
  }
  return [arriving(course, flow, after(once, 1, rounds), open, made)];
}

function rolesOf(flow: { readonly by: readonly string[] }, asked: readonly string[]): readonly string[] {
  return flow.by.length > 0 ? flow.by : asked;
}

function wait(flow: WaitFlow, course: Course): Course {
  const { duration } = flow;
  const state = awaited(flow);
  if (!state) return later(course, flow, duration, isChosen(flow));
  const { index, seconds } = state;
  const began = course.made.get(index);
  if (began?.state !== state.since || !Number.isFinite(seconds)) {
    // The state began before the lanes, or in another of them: how much of its time has passed is not known here.
    const waited = without(later(course, flow, duration, false), new Set([index]));
    return duration.hi > 0 ? { ...waited, open: opened(waited.open, flow) } : waited;
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

function later(
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
function arriving(course: Course, flow: Flow, at: Moment, open: readonly Flow[], changed: ReadonlySet<number>): Course {
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
function hull(courses: readonly Course[]): Moment {
  return {
    least: Math.min(...courses.map(({ at }) => at.least)),
    held: Math.min(...courses.map(({ at }) => at.held)),
    most: Math.max(...courses.map(({ at }) => at.most)),
    hurried: Math.max(...courses.map(({ at }) => at.hurried)),
  };
}

function openIn(courses: readonly Course[]): readonly Flow[] {
  return courses.flatMap(({ open }) => open).reduce(opened, []);
}

function opened(open: readonly Flow[], flow: Flow): readonly Flow[] {
  return open.length >= MOST_OPEN || open.includes(flow) ? open : [...open, flow];
}

/** The tracks that events set a state on. */
function setIn(items: readonly Flow[]): ReadonlySet<number> {
  const set = new Set<number>();
  forEachFlow(items, (flow) => {
    if (flow.type === 'step') for (const { index } of flow.plan.sets) set.add(index);
  });
  return set;
}

function without(course: Course, changed: ReadonlySet<number>): Course {
  if (changed.size === 0) return course;
  return { ...course, made: new Map([...course.made].filter(([index]) => !changed.has(index))) };
}

function gap(later: number, earlier: number): number {
  return Number.isFinite(later) ? later - earlier : Number.POSITIVE_INFINITY;
}

/** Nothing, endlessly often, is nothing. */
function times(seconds: number, often: number): number {
  return seconds === 0 ? 0 : seconds * often;
}
