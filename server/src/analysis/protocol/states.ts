import {
  type ComplicationFlow,
  type DecideFlow,
  type Flow,
  forEachFlow,
  type RepeatFlow,
  type TogetherFlow,
  type WaitFlow,
} from './flow.ts';
import { followPlan, followStep, followWait } from './follow-event.ts';
import { type Following, initialOf } from './following.ts';
import { checkDuties, endOf } from './owed.ts';
import { assuming, compact, mergeStates, type States, sameStates } from './possibility.ts';

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
