import type { Assumption, Flow, StepFlow, TogetherFlow } from './flow.ts';
import { type TooFewHands, tooFewHandsIn } from './hands-in-lanes.ts';
import { both } from './lane-course.ts';
import { isSurer, type LaneWork, meeting, meetings, type Pair } from './lane-meetings.ts';
import { workIn } from './lane-work.ts';

/** One role that is, or may be, asked for in two lanes at once. */
export interface RoleClash extends Pair {
  readonly role: string;
}

/** What is wrong with who works where in one `together`. */
export interface LaneFindings {
  readonly clashes: readonly RoleClash[];
  /** pauses in one lane (`second`) while somebody is, or may be, at work in another */
  readonly pauses: readonly Pair[];
  readonly tooFew: TooFewHands | undefined;
  /** steps for which a lane names nobody who may do them */
  readonly barred: readonly Barred[];
}

export interface Barred {
  readonly flow: StepFlow;
  readonly roles: readonly string[];
  readonly allowed: readonly string[];
}

/**
 * Who is asked for where in the lanes of a `together`, and what of it cannot be.
 *
 * @param asked roles of what it stands in
 * @param found what was found where it begins
 */
export function judgeLanes(
  together: TogetherFlow,
  asked: readonly string[],
  found: readonly Assumption[],
  team: ReadonlySet<string>,
): LaneFindings {
  const work = together.lanes
    .flatMap((lane, number) => workIn(lane, asked, found, team).map((one): LaneWork => ({ ...one, lane: number })))
    .sort((a, b) => a.begins.least - b.begins.least || a.begins.most - b.begins.most || a.lane - b.lane);
  const beyond = <Found extends { readonly when: readonly Assumption[] }>(one: Found): Found => ({
    ...one,
    when: one.when.filter(
      (when) => !found.some(({ key, values }) => key === when.key && values.size === when.values.size),
    ),
  });
  const clashes = roleClashes(work).map(beyond);
  const told = new Set<Flow>();
  for (const { first, second, answer } of clashes) if (answer !== 'not told') told.add(first.flow).add(second.flow);
  const tooFew = tooFewHandsIn(work, team);
  return {
    clashes,
    pauses: pausesAmid(work)
      .filter(({ second }) => !told.has(second.flow))
      .map(beyond),
    tooFew: tooFew && beyond(tooFew),
    barred: barredIn(work),
  };
}

function roleClashes(work: readonly LaneWork[]): readonly RoleClash[] {
  const byRole = new Map<string, LaneWork[]>();
  for (const one of work) {
    if (one.hands.type !== 'all of') continue;
    for (const role of new Set(one.hands.roles)) {
      const list = byRole.get(role);
      if (list) list.push(one);
      else byRole.set(role, [one]);
    }
  }
  return [...byRole].flatMap(([role, list]) => meetings(list).map((pair) => ({ ...pair, role })));
}

function barredIn(work: readonly LaneWork[]): readonly Barred[] {
  const barred = new Map<Flow, Barred>();
  for (const { flow, hands } of work) {
    if (flow.type !== 'step' || flow.by.length > 0 || flow.step.action?.type !== 'action') continue;
    const allowed = flow.step.action.by;
    if (hands.type === 'one of' || allowed.length === 0 || hands.roles.some((role) => allowed.includes(role))) continue;
    barred.set(flow, { flow, roles: hands.roles, allowed });
  }
  return [...barred.values()];
}

/** Each pause told once, with the work that it meets most surely. */
function pausesAmid(work: readonly LaneWork[]): readonly Pair[] {
  const found = new Map<Flow, Pair>();
  for (const second of work) {
    if (second.flow.type !== 'pause') continue;
    for (const first of work) {
      if (first.lane === second.lane || first.flow.type === 'pause') continue;
      const answer = meeting(first, second);
      const when = both(first.when, second.when);
      const known = found.get(second.flow);
      if (answer === 'never' || !when || (known && !isSurer(answer, known.answer))) continue;
      found.set(second.flow, { first, second, answer, when });
    }
  }
  return [...found.values()];
}
