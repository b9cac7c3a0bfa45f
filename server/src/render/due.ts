import type { ChecklistDue } from '@curette/shared';
import type { Duty } from '../analysis/model.ts';
import { pauseNamed } from '../analysis/names/resolve.ts';
import { type Flow, type FlowId, forEachFlow, innerLists } from '../analysis/protocol/flow.ts';
import type { States } from '../analysis/protocol/possibility.ts';
import type { ProtocolContext, VisitFacts } from '../analysis/protocol/protocol.ts';
import { followItems } from '../analysis/protocol/states.ts';
import type { Thing } from '../analysis/protocol/things.ts';
import { trackIndex, trackWith } from '../analysis/protocol/track.ts';
import type { Citations } from './citations.ts';
import { plain } from './text.ts';
import { thingWords } from './words.ts';

/** What has to be out, counted or closed, and where a visit asks for it. */
export interface VisitDuties {
  /** at a pause, by its id */
  readonly at: (pause: FlowId) => ChecklistDue[];
  /** at the end, where no pause comes after the last of it */
  readonly end: () => ChecklistDue[];
  /** stays for a later visit */
  readonly carried: () => ChecklistDue[];
}

/**
 * The duties of what a visit works with. Those that fall due at the end of the visit are asked for at the first pause after the
 * last step about the thing, on the main path and on every path that stops early: there the team still stands together.
 * A thing that nothing has been done to on the way to a pause is not asked for there.
 */
export function dutiesOf(visit: VisitFacts, context: ProtocolContext, citations: Citations): VisitDuties {
  const owed = owedIn(visit.items, context);
  const before = statesBeforePauses(visit, context);
  const at = new Map<FlowId, Asked[]>();
  const ask = (pause: FlowId, one: Owed): void => {
    const states = before.get(pause);
    const asked = states && askedOf(one, states);
    if (asked) at.set(pause, [...(at.get(pause) ?? []), asked]);
  };

  forEachFlow(visit.items, (flow) => {
    if (flow.type !== 'pause') return;
    for (const one of owed) if (one.duty.by === 'pause' && one.duty.pause === flow.name) ask(flow.id, one);
  });
  const end: Asked[] = [];
  for (const one of owed) {
    if (one.duty.by !== 'end of visit' || isAskedEarlier(one, owed)) continue;
    for (const list of endingLists(visit.items)) {
      const pause = closingPause(list, one);
      if (pause) ask(pause.id, one);
      else if (list === visit.items && visit.followed.exit) {
        const asked = askedOf(one, visit.followed.exit);
        if (asked) end.push(asked);
      }
    }
  }
  const carried = owed.flatMap((one): Asked[] => {
    const states = visit.followed.exit?.[one.index];
    const open = states?.some(({ state, since }) => since !== undefined && !one.duty.states.includes(state));
    return one.duty.by === 'end of protocol' && open ? [{ ...one, states: laterStates(one) }] : [];
  });

  const word = ({ thing, duty, states }: Asked): ChecklistDue => ({
    thing: thingWords(thing),
    states: states.map(plain),
    by: byWords(duty, context),
    why: duty.ground.because ?? null,
    source: citations.number(duty.ground.source, duty.ground.place.file),
  });
  // Worded when they are written out, so that sources are numbered as one reads.
  return {
    at: (pause) => (at.get(pause) ?? []).map(word),
    end: () => end.map(word),
    carried: () => carried.map(word),
  };
}

interface Owed {
  readonly thing: Thing;
  readonly duty: Duty;
  /** number of the track it is about */
  readonly index: number;
}

interface Asked extends Owed {
  /** any one of them */
  readonly states: readonly string[];
}

/** Duties of things that some step of the visit brings into another state. */
function owedIn(items: readonly Flow[], context: ProtocolContext): Owed[] {
  const touched = new Map<number, Thing>();
  forEachFlow(items, (flow) => {
    if (flow.type === 'step') for (const { thing, index } of flow.plan.sets) touched.set(index, thing);
  });
  const owed: Owed[] = [];
  for (const thing of new Set(touched.values()))
    for (const duty of thing.kind.duties) {
      const track = trackWith(thing, duty.states[0] ?? '');
      const index = track && trackIndex(thing, track, context.following.monitors.length);
      if (index !== undefined && touched.has(index)) owed.push({ thing, duty, index });
    }
  return owed;
}

/** What a duty asks of a thing as it then stands; undefined when nothing has been done to it. */
function askedOf(owed: Owed, states: States): Asked | undefined {
  const possibilities = states[owed.index]?.filter(({ since }) => since !== undefined);
  if (!possibilities || possibilities.length === 0) return undefined;
  const reached = owed.duty.states.filter((state) => possibilities.some((one) => one.state === state));
  // Where the protocol leaves it otherwise, all that would do is named.
  const sound = possibilities.every(({ state }) => owed.duty.states.includes(state));
  return { ...owed, states: sound ? reached : owed.duty.states };
}

/** The states that come after the beginning: what must be done with it some day. */
function laterStates({ thing, duty }: Owed): readonly string[] {
  const initial = trackWith(thing, duty.states[0] ?? '')?.initial;
  const later = duty.states.filter((state) => state !== initial);
  return later.length > 0 ? later : duty.states;
}

/** A pause asks for the same already. */
function isAskedEarlier(one: Owed, all: readonly Owed[]): boolean {
  return all.some(
    ({ thing, duty }) =>
      thing === one.thing &&
      duty.by === 'pause' &&
      duty.states.length === one.duty.states.length &&
      duty.states.every((state) => one.duty.states.includes(state)),
  );
}

function statesBeforePauses(visit: VisitFacts, context: ProtocolContext): ReadonlyMap<FlowId, States> {
  const before = new Map<FlowId, States>();
  const watch = (flow: Flow, states: States) => {
    if (flow.type === 'pause') before.set(flow.id, [...states]);
  };
  followItems({ ...context.following, find: () => undefined, watch }, visit.items, visit.followed.entry);
  return before;
}

/** The main path, and every list of events that stops early. */
function endingLists(items: readonly Flow[]): (readonly Flow[])[] {
  const lists = [items];
  forEachFlow(items, (flow) => {
    for (const inner of innerLists(flow)) if (inner.at(-1)?.type === 'stop') lists.push(inner);
  });
  return lists;
}

function closingPause(list: readonly Flow[], owed: Owed): Flow | undefined {
  const last = list.findLastIndex((flow) => flow.type !== 'complication' && changes(flow, owed));
  return list.slice(last + 1).find((flow) => flow.type === 'pause');
}

function changes(flow: Flow, owed: Owed): boolean {
  let found = false;
  forEachFlow([flow], (one) => {
    if (one.type === 'step' && one.plan.sets.some(({ index }) => index === owed.index)) found = true;
  });
  return found;
}

function byWords(duty: Duty, context: ProtocolContext): string {
  switch (duty.by) {
    case 'pause': {
      const name = duty.pause ?? '';
      return `before ${(pauseNamed(context.module, name)?.label ?? plain(name)).toLowerCase()}`;
    }
    case 'end of visit':
      return 'by the end of the visit';
    case 'end of protocol':
      return 'by the end of the protocol';
    default:
      return duty.by satisfies never;
  }
}
