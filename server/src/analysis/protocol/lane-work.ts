import { listDuration } from './durations.ts';
import type { Assumption, Flow, Lane, RepeatFlow, TogetherFlow } from './flow.ts';
import { labelOf } from './flow-words.ts';
import {
  arriving,
  beginning,
  both,
  type Course,
  gap,
  hull,
  later,
  type Moment,
  opened,
  openIn,
  type Stretch,
  setIn,
  times,
  waited,
  without,
} from './lane-course.ts';
import { type Hands, handsFor } from './who-works.ts';

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
  const walk: Walk = { team, work, asked: rolesOf(lane, asked), further: false, most: MOST_COURSES };
  walkList(walk, lane.items, [beginning(found)]);
  return work;
}

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
      return [waited(flow, course)];
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
