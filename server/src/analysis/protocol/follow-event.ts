import type { Expr } from '@curette/grammar';
import type { Answer, Environment } from '../rules/evaluate.ts';
import { judge } from '../rules/judge.ts';
import { wordsOf } from '../rules/pattern.ts';
import type { Assumption, Flow, FlowId, StepFlow, WaitFlow } from './flow.ts';
import { type Following, initialOf, type MarkedFlow } from './following.ts';
import { BEGUN, type Mark } from './monitors.ts';
import type { DynamicCheck, StepPlan } from './plan.ts';
import { assumedWords, type Portion } from './portion.ts';
import {
  ANY_STATE,
  compact,
  isIn,
  type Possibilities,
  type Possibility,
  pathsThrough,
  type States,
  together,
} from './possibility.ts';
import type { Thing } from './things.ts';
import { trackIndex, trackWith } from './track.ts';

export function followStep(following: Following, flow: StepFlow, states: States): void {
  const { plan } = flow;
  const failed = new Set<number>();
  for (const need of plan.needs) {
    const possibilities = states[need.index] ?? initialOf(following, need.index);
    const bad = possibilities.filter((one) => !isIn(one, need.state));
    if (bad.length > 0) {
      failed.add(need.index);
      following.find({ type: 'wrong state', flow, need, bad, all: bad.length === possibilities.length });
    }
    const good = bad.length === 0 ? possibilities : possibilities.filter((one) => isIn(one, need.state));
    if (need.age || need.lasts)
      for (const one of good)
        if (one.state === need.state) following.find({ type: 'clock', flow, need, since: one.since, when: one.when });
    // Told once: work goes on as if the step before had been done.
    if (bad.length > 0)
      states[need.index] = good.length > 0 ? good : [{ state: need.state, since: flow.id, when: [], told: true }];
  }
  for (const check of plan.checks) followCheck(following, flow, check, states);
  followMarks(following, flow, plan.marks, states);
  for (const set of plan.sets) {
    const possibilities = states[set.index] ?? initialOf(following, set.index);
    if (!failed.has(set.index)) {
      const bad = possibilities.filter(
        (one) =>
          one.state !== ANY_STATE &&
          set.state !== ANY_STATE &&
          one.state !== set.state &&
          !set.track.moves.get(one.state)?.has(set.state),
      );
      if (bad.length > 0)
        following.find({ type: 'impossible move', flow, set, bad, all: bad.length === possibilities.length });
    }
    states[set.index] = [{ state: set.state, since: flow.id, when: [] }];
  }
}

export function followWait(following: Following, flow: WaitFlow, states: States): void {
  const awaited = flow.until ?? flow.passing;
  if (!awaited) return;
  const { thing, index, state } = awaited;
  const from = flow.passing?.from;
  const possibilities = states[index] ?? initialOf(following, index);
  const bad = possibilities.filter((one) => !isIn(one, state) && (from === undefined || !isIn(one, from)));
  if (bad.length > 0)
    following.find({ type: 'wait in vain', flow, thing, state, bad, all: bad.length === possibilities.length });
  if (from !== undefined)
    states[index] = possibilities.map((one) => (one.state === from ? { ...one, state, since: flow.id } : one));
}

/** What rules ask of an event that changes no state. */
export function followPlan(
  following: Following,
  flow: MarkedFlow,
  { checks, marks }: StepPlan,
  states: States,
  since: FlowId = flow.id,
): void {
  for (const check of checks) followCheck(following, flow, check, states);
  followMarks(following, flow, marks, states, since);
}

/** Judges conditions where an event stands; `asked` fills with the tracks that their answers hang on. */
function judgeAt(following: Following, environment: Environment, states: States) {
  const asked = new Map<number, Possibilities>();
  const standing = (index: number, one: ReadonlyMap<number, Possibility> | undefined): Possibilities => {
    const possibilities = states[index] ?? initialOf(following, index);
    asked.set(index, possibilities);
    const way = one?.get(index);
    return way ? [way] : possibilities;
  };
  /** @param one how the tracks stand on one path; undefined: on all of them */
  const judgeWith = (expr: Expr, one: ReadonlyMap<number, Possibility> | undefined): Answer =>
    judge(expr, {
      ...environment,
      state: (thing, state, forAtLeast) => {
        const track = trackWith(thing, state);
        if (!track) return { answer: 'never' };
        if (forAtLeast !== undefined) return { answer: 'undecided', missing: 'time within a composed condition' };
        return stateAmong(standing(trackIndex(thing, track, following.monitors.length), one), thing, state);
      },
      found: (finding, value) => {
        const monitor = following.monitors.find((other) => other.finding === finding);
        if (!monitor) return { answer: 'undecided', missing: 'what is found' };
        return among(standing(monitor.index, one), value);
      },
    });
  return { asked, judgeWith };
}

function followCheck(following: Following, flow: Flow, check: DynamicCheck, states: States): void {
  const { asked, judgeWith } = judgeAt(following, check.environment, states);
  if (check.where && judgeWith(check.where, undefined).answer === 'never') return;
  const answer = judgeWith(check.expr, undefined);
  if (answer.answer === 'always') return;
  const find = (told: Answer, bad: Possibilities) =>
    following.find({ type: 'condition', flow, check, answer: told, bad });
  const paths = answer.answer === 'undecided' ? undefined : pathsThrough(asked);
  if (!paths) {
    find(answer, []);
    return;
  }
  const answers = paths.map(({ ways, when }) => {
    const spoken = !check.where || judgeWith(check.where, ways).answer !== 'never';
    return { when, answer: spoken ? judgeWith(check.expr, ways).answer : 'always' };
  });
  const bad = answers.filter((one) => one.answer !== 'always');
  if (bad.length === 0) return;
  if (bad.every((one) => one.answer === 'never') && bad.length === answers.length) find({ answer: 'never' }, []);
  else if (bad.length === answers.length) find(answer, []);
  else find({ answer: 'sometimes' }, compact(bad.map(({ when }) => ({ state: '', since: undefined, when }))));
}

function stateAmong(possibilities: Possibilities, thing: Thing, state: string): Answer {
  if (possibilities.some((one) => one.state === ANY_STATE))
    return { answer: 'undecided', missing: `what an unknown action did to ${thing.label}` };
  return among(possibilities, state);
}

function among(possibilities: Possibilities, state: string): Answer {
  const good = possibilities.filter((one) => one.state === state).length;
  return { answer: good === possibilities.length ? 'always' : good === 0 ? 'never' : 'sometimes' };
}

function followMarks(
  following: Following,
  flow: MarkedFlow,
  marks: readonly Mark[],
  states: States,
  since: FlowId = flow.id,
): void {
  for (const mark of marks) {
    const { may, next, monitor, limit } = mark;
    const before = states[mark.index] ?? initialOf(following, mark.index);
    const { inside, outside } = partedBy(following, mark.portions, before, states);
    if (limit && monitor.rule)
      for (const one of inside)
        if (one.state === BEGUN && one.since !== undefined)
          following.find({ type: 'rule clock', flow, rule: monitor.rule, limit, since: one.since, when: one.when });
    const bad = may ? inside.filter((one) => !may(one.state)) : [];
    const all = bad.length === inside.length && outside.length === 0;
    if (bad.length > 0) following.find({ type: 'mark', flow, mark, bad, all });
    if (!next || inside.length === 0) continue;
    const after = inside.map((one) => ({ ...one, state: next(one.state), since }));
    states[mark.index] = outside.length === 0 ? after : compact([...after, ...outside]);
  }
}

/** The ways a track stands on the paths where all of the portions are so, and on the others. */
function partedBy(
  following: Following,
  portions: readonly Portion[],
  possibilities: Possibilities,
  states: States,
): { readonly inside: Possibilities; readonly outside: Possibilities } {
  let inside = possibilities;
  let outside: Possibilities = [];
  for (const portion of portions) {
    const { so, not } = sidesOf(following, portion, states);
    outside = [...outside, ...crossed(inside, not)];
    inside = compact(crossed(inside, so));
  }
  return { inside, outside: outside.length > 0 ? compact(outside) : outside };
}

type Sides = Readonly<Record<'so' | 'not', readonly (readonly Assumption[])[]>>;

function sidesOf(following: Following, portion: Portion, states: States): Sides {
  if (portion.type === 'assumed') return { so: [[portion.so]], not: portion.not ? [[portion.not]] : [] };
  const { asked, judgeWith } = judgeAt(following, portion.environment, states);
  const { answer } = judgeWith(portion.expr, undefined);
  if (answer === 'always') return { so: [[]], not: [] };
  if (answer === 'never') return { so: [], not: [[]] };
  const paths = answer === 'undecided' ? undefined : pathsThrough(asked);
  // What cannot be told is looked at both ways.
  const either = () => sidesOf(following, assumedWords(wordsOf(portion.expr, portion.environment)), states);
  if (!paths) return either();
  const answers = paths.map(({ ways, when }) => ({ when, answer: judgeWith(portion.expr, ways).answer }));
  if (answers.some((one) => one.answer === 'undecided' || one.answer === 'sometimes')) return either();
  const whens = (wanted: Answer['answer']) => answers.filter((one) => one.answer === wanted).map(({ when }) => when);
  return { so: whens('always'), not: whens('never') };
}

function crossed(possibilities: Possibilities, whens: readonly (readonly Assumption[])[]): readonly Possibility[] {
  return possibilities.flatMap((one) =>
    whens.flatMap((other) => {
      const when = together(one.when, other);
      return when ? [{ ...one, when }] : [];
    }),
  );
}
