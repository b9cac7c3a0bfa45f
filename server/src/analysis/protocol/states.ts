import type { Expr, StatementOf } from '@curette/grammar';
import type { Duty, Rule, TimeLimit } from '../model.ts';
import type { Answer, Environment } from '../rules/evaluate.ts';
import { judge } from '../rules/judge.ts';
import { wordsOf } from '../rules/pattern.ts';
import {
  type Assumption,
  type ComplicationFlow,
  type DecideFlow,
  type Flow,
  type FlowId,
  forEachFlow,
  type PauseFlow,
  type PlainFlow,
  type RepeatFlow,
  type StepFlow,
  type StopFlow,
  type TogetherFlow,
  type VerifyFlow,
  type WaitFlow,
} from './flow.ts';
import { BEGUN, type Mark, type Monitor } from './monitors.ts';
import type { DynamicCheck, StateNeed, StateSet, StepPlan } from './plan.ts';
import { assumedWords, type Portion, WORDS } from './portion.ts';
import {
  ANY_STATE,
  assuming,
  compact,
  isIn,
  mergeStates,
  type Possibilities,
  type Possibility,
  pathsThrough,
  type States,
  sameStates,
  together,
} from './possibility.ts';
import type { Thing, Things } from './things.ts';
import { trackIndex, trackWith } from './track.ts';

/** What following the states of a visit brought to light. Worded elsewhere. */
export type StateFinding =
  | {
      readonly type: 'wrong state';
      readonly flow: Flow;
      readonly need: StateNeed;
      readonly bad: Possibilities;
      readonly all: boolean;
    }
  | {
      readonly type: 'impossible move';
      readonly flow: Flow;
      readonly set: StateSet;
      readonly bad: Possibilities;
      readonly all: boolean;
    }
  /** `bad`: on which paths it is not met, where it is on others */
  | {
      readonly type: 'condition';
      readonly flow: Flow;
      readonly check: DynamicCheck;
      readonly answer: Answer;
      readonly bad: Possibilities;
    }
  | {
      readonly type: 'mark';
      readonly flow: Flow;
      readonly mark: Mark;
      readonly bad: Possibilities;
      readonly all: boolean;
    }
  | {
      readonly type: 'left';
      readonly end: Ending;
      readonly thing: Thing;
      readonly duty: Duty;
      readonly bad: Possibilities;
      readonly all: boolean;
    }
  | {
      readonly type: 'monitor end';
      readonly end: Ending;
      readonly monitor: Monitor;
      readonly bad: Possibilities;
      readonly all: boolean;
    }
  | { readonly type: 'unreachable'; readonly flow: Flow; readonly after: Flow }
  | {
      readonly type: 'lanes';
      readonly flow: TogetherFlow;
      readonly step: Flow;
      readonly other: Flow;
      readonly thing: Thing;
    }
  /** a clock to be read: how old the state is when the step begins */
  | {
      readonly type: 'clock';
      readonly flow: StepFlow;
      readonly need: StateNeed;
      readonly since: FlowId | undefined;
      readonly when: Possibility['when'];
    }
  /** a rule's clock to be read: how long ago the first of its two steps was done when the second begins */
  | {
      readonly type: 'rule clock';
      readonly flow: MarkedFlow;
      readonly rule: Rule;
      readonly limit: TimeLimit;
      readonly since: FlowId;
      readonly when: Possibility['when'];
    }
  /** a wait for a state that the thing is not in on some path */
  | {
      readonly type: 'wait in vain';
      readonly flow: WaitFlow;
      readonly thing: Thing;
      readonly state: string;
      readonly bad: Possibilities;
      readonly all: boolean;
    };

/** An event that rules look for; where something is found, the decision. */
export type MarkedFlow = StepFlow | PauseFlow | VerifyFlow | PlainFlow | DecideFlow | StopFlow;

/** Where a duty falls due. */
export type Ending =
  | { readonly type: 'visit' | 'protocol'; readonly after: Flow | undefined }
  | { readonly type: 'pause'; readonly pause: PauseFlow }
  | { readonly type: 'stop'; readonly stop: Flow };

export interface Following {
  readonly things: Things;
  readonly monitors: readonly Monitor[];
  readonly find: (finding: StateFinding) => void;
  /** how many repetitions around are being tried out for what a further round finds; undefined where it is for good */
  readonly trying?: number;
  /** told of the states before each event, when somebody wants to know */
  readonly watch: ((flow: Flow, states: States) => void) | undefined;
}

/** States at the beginning of a protocol that follows no other: everything in its initial state. */
export function initialStates(): States {
  return [];
}

/**
 * The states a visit begins in. Its own rules begin anew, and what was found in an earlier visit says nothing of what will be found in
 * this one: bleeding then is not bleeding now.
 */
export function enterVisit(following: Following, states: States, left: StatementOf<'visit'> | undefined): States {
  const entered = states.map((possibilities) =>
    possibilities?.some((one) => one.when.length > 0)
      ? possibilities.map((one) => ({
          ...one,
          when: left ? one.when.map((found) => foundEarlier(found, left)) : one.when,
        }))
      : possibilities,
  );
  for (const monitor of following.monitors) if (monitor.scope === 'visit') entered[monitor.index] = undefined;
  return entered;
}

/** Marked by the visit it was found in, once. */
function foundEarlier(found: Assumption, visit: StatementOf<'visit'>): Assumption {
  if (found.key.includes('@') || found.key.startsWith(WORDS)) return found;
  const title = visit.label?.value ?? visit.name?.text.replaceAll('_', ' ') ?? 'an earlier visit';
  return {
    ...found,
    key: `${found.key}@${visit.id} ${title}`,
    say: (values) => `${found.say(values)} in "${title}"`,
  };
}

/** What a track is in before anything happened. */
export function initialOf(following: Following, index: number): Possibilities {
  const monitor = following.monitors[index];
  const followed = following.things.tracks[index - following.monitors.length];
  const state = monitor?.initial ?? followed?.track.initial ?? '';
  return [{ state, since: undefined, when: [] }];
}

/**
 * Follows the states of all things through a list of events. Gives the states after it, or undefined when no run gets there
 * because every path stops before.
 */
export function followItems(following: Following, items: readonly Flow[], states: States): States | undefined {
  let current: States | undefined = [...states];
  let last: Flow | undefined;
  for (const flow of items) {
    if (!current) {
      if (last) following.find({ type: 'unreachable', flow, after: last });
      return undefined;
    }
    current = followOne(following, flow, current);
    last = flow;
  }
  return current;
}

/** The states after one event. May change `states` in place. */
export function followOne(following: Following, flow: Flow, states: States): States | undefined {
  following.watch?.(flow, states);
  switch (flow.type) {
    case 'step':
      followStep(following, flow, states);
      return states;
    case 'pause':
      checkDuties(
        following,
        states,
        { type: 'pause', pause: flow },
        (duty) => duty.by === 'pause' && duty.pause === flow.name,
      );
      followPlan(following, flow, flow.plan, states);
      return states;
    case 'call':
      return followItems(following, flow.items, states);
    case 'wait':
      followWait(following, flow, states);
      return states;
    case 'verify':
      followPlan(following, flow, flow.plan, states);
      if (!flow.otherwise) return states;
      return followAside(following, flow.otherwise, states, {
        key: `#${flow.id}`,
        values: new Set(['yes']),
        of: 2,
        say: (values) => `"${flow.label}" is ${values.has('yes') ? 'not ' : ''}as it should be`,
      });
    case 'complication':
      return followAside(following, flow.items, states, flow.assumption);
    case 'decide':
      return followDecide(following, flow, states);
    case 'together':
      return followTogether(following, flow, states);
    case 'repeat':
      return followRepeat(following, flow, states);
    case 'stop':
      followPlan(following, flow, flow.plan, states);
      endOf(following, states, { type: 'stop', stop: flow });
      return undefined;
    case 'plain':
      followPlan(following, flow, flow.plan, states);
      return states;
    default:
      return flow satisfies never;
  }
}

/** What must be done by the end of a visit (and, at the last one or at a stop, of the protocol) is done. */
export function endOf(following: Following, states: States, ending: Ending): void {
  const whole = ending.type !== 'visit';
  checkDuties(
    following,
    states,
    ending,
    (duty) => (ending.type !== 'protocol' && duty.by === 'end of visit') || (whole && duty.by === 'end of protocol'),
  );
  for (const monitor of following.monitors) {
    if (!monitor.end) continue;
    // A path that stops early owes what it has begun, but nothing to a rule about what a whole visit contains.
    if (ending.type === 'stop' ? !monitor.owed : (monitor.scope === 'protocol') !== (ending.type === 'protocol'))
      continue;
    const { end } = monitor;
    const possibilities = states[monitor.index] ?? initialOf(following, monitor.index);
    const bad = possibilities.filter((one) => !end(one.state));
    if (bad.length > 0)
      following.find({ type: 'monitor end', end: ending, monitor, bad, all: bad.length === possibilities.length });
  }
}

function checkDuties(following: Following, states: States, ending: Ending, due: (duty: Duty) => boolean): void {
  for (const thing of dutiful(following.things))
    for (const duty of thing.kind.duties) {
      if (!due(duty)) continue;
      const [first] = duty.states;
      const track = first === undefined ? undefined : trackWith(thing, first);
      if (!track) continue;
      const index = trackIndex(thing, track, following.monitors.length);
      // A place that is only named owes nothing until something is done to it.
      if (!thing.statement && states[index] === undefined) continue;
      const possibilities = states[index] ?? initialOf(following, index);
      const bad = possibilities.filter(
        (one) => !one.told && one.state !== ANY_STATE && !duty.states.includes(one.state),
      );
      if (bad.length === 0) continue;
      following.find({ type: 'left', end: ending, thing, duty, bad, all: bad.length === possibilities.length });
      // Told once: what is left at a pause is not told again at the end, nor at the end of the next visit.
      states[index] = possibilities.map((one) => (bad.includes(one) ? { ...one, told: true } : one));
    }
}

/** Things with a duty; the same list for as long as no further place is named. */
function dutiful(things: Things): readonly Thing[] {
  const kept = dutifulThings.get(things);
  if (kept && kept.of === things.tracks.length) return kept.list;
  const list = [...new Set(things.tracks.map(({ thing }) => thing))].filter((thing) => thing.kind.duties.length > 0);
  dutifulThings.set(things, { of: things.tracks.length, list });
  return list;
}

const dutifulThings = new WeakMap<Things, { readonly of: number; readonly list: readonly Thing[] }>();

function followStep(following: Following, flow: StepFlow, states: States): void {
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

function followWait(following: Following, flow: WaitFlow, states: States): void {
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
function followPlan(
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

/** Something that may happen or not: its path beside the one where it does not. */
function followAside(
  following: Following,
  items: readonly Flow[],
  states: States,
  assumption: ComplicationFlow['assumption'],
): States {
  const before = [...states];
  const after = followItems(following, items, states);
  const not = { ...assumption, values: new Set(['no']) };
  return mergeStates(
    before,
    [{ states: before, assumptions: [not] }, ...(after ? [{ states: after, assumptions: [assumption] }] : [])],
    (index) => initialOf(following, index),
  );
}

function followDecide(following: Following, flow: DecideFlow, states: States): States | undefined {
  const incoming = [];
  for (const branch of flow.branches) {
    const entered: States = [];
    let possible = true;
    for (let index = 0; index < states.length; index++) {
      let possibilities = states[index];
      if (possibilities)
        for (const assumption of [branch.assumption, ...branch.also])
          possibilities = assuming(possibilities, assumption);
      // A track with nothing left: no run has these findings here, the option contradicts an earlier one.
      if (possibilities?.length === 0) possible = false;
      entered[index] = possibilities;
    }
    if (!possible) continue;
    followPlan(following, flow, branch.plan, entered, branch.id);
    const after = followItems(following, branch.items, entered);
    if (after) incoming.push({ states: after, assumptions: branch.remembered });
  }
  if (flow.branches.length === 0) return states;
  if (incoming.length === 0) return undefined;
  return mergeStates(states, incoming, (index) => initialOf(following, index));
}

/** Rounds of repetitions inside one another multiply; further in than this each is followed for itself. */
const MOST_TRIED = 3;

function followRepeat(following: Following, flow: RepeatFlow, states: States): States | undefined {
  const trying = following.trying ?? 0;
  const quiet: Following = { ...following, find: () => undefined, watch: undefined, trying: trying + 1 };
  const again = {
    key: `#${flow.id}`,
    values: new Set(['again']),
    of: 2,
    say: (values: ReadonlySet<string>) => `it is done ${values.has('again') ? 'a second' : 'the first'} time`,
  };
  const first = { ...again, values: new Set(['first']) };
  // What is found in one round says nothing of the next.
  const anew = new Set([again.key, ...findingsIn(flow.items)]);
  const before = [...states];
  let entry = before;
  const rounds = trying < MOST_TRIED && (flow.atMost === undefined || flow.atMost > 1) ? 6 : 0;
  for (let round = 0; round < rounds; round++) {
    const round = followItems(quiet, flow.items, entry);
    if (!round) break;
    const after = forgetting(round, anew);
    const next = mergeStates(
      before,
      [
        { states: before, assumptions: [first] },
        { states: after, assumptions: [again] },
      ],
      (index) => initialOf(following, index),
    );
    if (sameStates(next, entry)) break;
    entry = next;
  }
  const after = followItems(following, flow.items, entry);
  return after && forgetting(after, new Set([again.key]));
}

/** The same states, whatever was assumed under the keys. */
function forgetting(states: States, keys: ReadonlySet<string>): States {
  return states.map((possibilities) =>
    possibilities?.some((one) => one.when.some(({ key }) => keys.has(key)))
      ? compact(possibilities.map((one) => ({ ...one, when: one.when.filter(({ key }) => !keys.has(key)) })))
      : possibilities,
  );
}

const findingsKept = new WeakMap<readonly Flow[], readonly string[]>();

/** The keys of everything that is found, verified or may happen in a list of events. */
function findingsIn(items: readonly Flow[]): readonly string[] {
  const known = findingsKept.get(items);
  if (known) return known;
  const keys: string[] = [];
  forEachFlow(items, (flow) => {
    if (flow.type === 'decide')
      for (const { assumption, also } of flow.branches) for (const { key } of [assumption, ...also]) keys.push(key);
    if (flow.type === 'verify' || flow.type === 'complication' || flow.type === 'repeat') keys.push(`#${flow.id}`);
  });
  findingsKept.set(items, keys);
  return keys;
}

function followTogether(following: Following, flow: TogetherFlow, states: States): States | undefined {
  const before = [...states];
  const touched: Map<number, Flow>[] = [];
  const asked: Map<number, Flow>[] = [];
  for (const lane of flow.lanes) {
    const sets = new Map<number, Flow>();
    const reads = new Map<number, Flow>();
    collectTouched(lane.items, sets, reads);
    touched.push(sets);
    asked.push(reads);
  }
  const additive = following.monitors.filter((monitor) => monitor.addsUp);
  const counts = [...before];
  const ends = flow.lanes.map((lane, number) => {
    // What another lane changes is told as such; in which state it is here nobody can say.
    const unsure = (index: number) => touched.some((sets, other) => other !== number && sets.has(index));
    const find: Following['find'] = (finding) => {
      if (finding.type === 'wrong state' && unsure(finding.need.index)) return;
      if (finding.type === 'impossible move' && unsure(finding.set.index)) return;
      if (finding.type === 'wait in vain' && unsure(awaitedBy(finding.flow) ?? -1)) return;
      following.find(finding);
    };
    const entry = [...before];
    // How often something is done adds up over lanes, whichever comes first.
    for (const { index } of additive) entry[index] = counts[index];
    const end = followItems({ ...following, find }, lane.items, entry);
    for (const { index } of additive) counts[index] = end?.[index] ?? counts[index];
    return end;
  });
  const monitors = following.monitors.length;
  const told = new Set<string>();
  touched.forEach((sets, lane) => {
    for (const [index, step] of sets)
      for (let other = 0; other < flow.lanes.length; other++) {
        if (other === lane) continue;
        const clash = asked[other]?.get(index) ?? (other > lane ? touched[other]?.get(index) : undefined);
        const followed = following.things.tracks[index - monitors];
        if (!clash || !followed) continue;
        // Two lanes that both change a thing meet twice: from either side.
        const pair = `${Math.min(lane, other)}|${Math.max(lane, other)}|${index}`;
        if (told.has(pair)) continue;
        told.add(pair);
        following.find({ type: 'lanes', flow, step: clash, other: step, thing: followed.thing });
      }
  });
  if (flow.lanes.length === 0) return before;
  const merged = [...before];
  for (const end of ends) {
    if (!end) return undefined;
    for (let index = 0; index < end.length; index++) {
      const now = end[index];
      if (!now || now === before[index]) continue;
      const other = merged[index];
      const unsure = index < monitors && other !== undefined && other !== before[index];
      // What two lanes do to a rule is done in either order: it may end as either leaves it.
      merged[index] = unsure && !following.monitors[index]?.addsUp ? compact([...other, ...now]) : now;
    }
  }
  for (const { index } of additive) merged[index] = counts[index];
  return merged;
}

function collectTouched(items: readonly Flow[], sets: Map<number, Flow>, reads: Map<number, Flow>): void {
  forEachFlow(items, (flow) => {
    const awaited = flow.type === 'wait' ? awaitedBy(flow) : undefined;
    if (awaited !== undefined && !reads.has(awaited)) reads.set(awaited, flow);
    if (flow.type !== 'step') return;
    for (const need of flow.plan.needs) if (!reads.has(need.index)) reads.set(need.index, flow);
    for (const set of flow.plan.sets) if (!sets.has(set.index)) sets.set(set.index, flow);
  });
}

/** The track of the state that a wait waits for. */
function awaitedBy(flow: WaitFlow): number | undefined {
  return (flow.until ?? flow.passing)?.index;
}
