import type { StatementOf } from '@curette/grammar';
import type { Range } from '@curette/shared';
import type { Duration } from '../model.ts';
import { SAME_TIME } from '../time/network.ts';
import { visitClocks } from './clock-readings.ts';
import { durationOf, stops } from './durations.ts';
import { type Flow, type FlowId, innerLists } from './flow.ts';
import { type Idle, idleOf } from './idle.ts';
import type { ProtocolFacts, VisitFacts } from './protocol.ts';
import { slackOf } from './slack.ts';
import { handsFor } from './who-works.ts';
import { beginningsOf, type Window, windowsOf } from './windows.ts';

/** What a visit's order of work says of when each of its events can take place. Seconds since the beginning of the visit. */
export interface VisitSchedule {
  readonly visit: StatementOf<'visit'>;
  /** how long the chair is occupied; `stated` is false where an event does not say how long it takes */
  readonly chair: Duration;
  /** every event, outermost first, in the order they stand */
  readonly entries: readonly ScheduleEntry[];
  readonly idle: readonly Idle[];
}

export interface ScheduleEntry {
  readonly flow: Flow;
  /** number of events that it is inside of */
  readonly depth: number;
  /** labels of the lanes that it is inside of, outermost first */
  readonly lanes: readonly string[];
  /** roles that do it (who-works.ts); empty where nothing says who */
  readonly by: readonly string[];
  /** `hi` is Infinity where something before it does not say how long it takes */
  readonly start: Range;
  readonly end: Range;
  /** with all that is inside it */
  readonly duration: Duration;
  /** whether every second it takes longer makes the longest run longer that it is part of */
  readonly critical: boolean;
  /** seconds it may take longer in that run until it does; Infinity where a lane beside it has no stated length */
  readonly slack: number;
  /**
   * Seconds it may begin later before a limit breaks that begins before it and ends at it or after; negative where the limit can
   * break already, undefined where no limit spans it or the longest time cannot be told.
   */
  readonly spare: number | undefined;
}

/** The schedule of a visit of a protocol. Worked out once for each version of the visit. */
export function scheduleOf(facts: ProtocolFacts, visit: VisitFacts): VisitSchedule {
  const known = schedules.get(visit);
  if (known) return known;
  const schedule = made(facts, visit);
  schedules.set(visit, schedule);
  return schedule;
}

const schedules = new WeakMap<VisitFacts, VisitSchedule>();

function made(facts: ProtocolFacts, visit: VisitFacts): VisitSchedule {
  const { statement, items } = visit;
  const began = beginningsOf(facts, visit);
  const { windows, end } = windowsOf(items, began);
  const entries = entriesOf(facts, visit, windows, slackOf(items, began));
  const roles = new Map(entries.map(({ flow, by }) => [flow.id, by]));
  const idle = idleOf(items, windows, facts.course(), began, (flow) => roles.get(flow.id) ?? []);
  return { visit: statement, chair: { ...end, stated: Number.isFinite(end.hi) }, entries, idle };
}

/** Where an event stands among what is inside what. */
interface Place {
  readonly depth: number;
  readonly lanes: readonly string[];
  readonly by: readonly string[];
  /** options it stands in: the decision and which of its options */
  readonly options: readonly Option[];
}

interface Option {
  readonly of: FlowId;
  readonly option: number;
  /** no run comes out of it */
  readonly stops: boolean;
}

interface Draft {
  readonly entry: Omit<ScheduleEntry, 'spare'>;
  readonly place: Place;
}

function entriesOf(
  facts: ProtocolFacts,
  visit: VisitFacts,
  windows: ReadonlyMap<FlowId, Window>,
  slacks: ReadonlyMap<FlowId, number>,
): ScheduleEntry[] {
  const drafts: Draft[] = [];
  const walk = (items: readonly Flow[], place: Place) => {
    for (const flow of items) {
      const { start, end } = windows.get(flow.id) ?? nowhere;
      const { depth, lanes } = place;
      const slack = slacks.get(flow.id) ?? 0;
      const entry = { flow, depth, lanes, by: rolesOf(facts, flow, place.by), start, end, duration: durationOf(flow) };
      drafts.push({ entry: { ...entry, critical: slack <= SAME_TIME, slack }, place });
      walkInside(flow, {
        ...place,
        depth: depth + 1,
        by: flow.type === 'call' && flow.by.length > 0 ? flow.by : place.by,
      });
    }
  };
  const walkInside = (flow: Flow, inside: Place) => {
    switch (flow.type) {
      case 'together': {
        for (const lane of flow.lanes)
          walk(lane.items, {
            ...inside,
            lanes: [...inside.lanes, lane.label],
            by: lane.by.length > 0 ? lane.by : inside.by,
          });
        return;
      }
      case 'decide':
      case 'verify':
      case 'complication':
        innerLists(flow).forEach((items, option) => {
          const taken = { of: flow.id, option, stops: stops(items) };
          walk(items, { ...inside, options: [...inside.options, taken] });
        });
        return;
      default:
        for (const items of innerLists(flow)) walk(items, inside);
    }
  };
  walk(visit.items, { depth: 0, lanes: [], by: [], options: [] });
  const spare = sparesOf(facts, visit, drafts);
  return drafts.map(({ entry }, i) => ({ ...entry, spare: spare[i] }));
}

const nowhere = { start: { lo: 0, hi: 0 }, end: { lo: 0, hi: 0 } } as const;

function rolesOf(facts: ProtocolFacts, flow: Flow, around: readonly string[]): readonly string[] {
  const hands = handsFor(flow, around, facts.context.things.team);
  return hands.type === 'all of' ? hands.roles : [];
}

/** By event: how much later it may begin until a limit that spans it breaks, when all that lies between takes as long as it may. */
function sparesOf(facts: ProtocolFacts, visit: VisitFacts, drafts: readonly Draft[]): (number | undefined)[] {
  const spares: (number | undefined)[] = drafts.map(() => undefined);
  const position = new Map<FlowId, number>(drafts.map(({ entry }, i) => [entry.flow.id, i]));
  const { readings, rules } = visitClocks(facts.course(), visit);
  for (const { since, flow, most, elapsed, choice } of [...readings.values(), ...rules.values()]) {
    const to = position.get(flow.id);
    if (to === undefined || !elapsed || !Number.isFinite(most) || !Number.isFinite(elapsed.hi)) continue;
    // It holds because the team waits no longer than it may: how long the rest may take then is its choice.
    if (choice?.type === 'kept') continue;
    // What began in an earlier visit spans everything from the beginning of this one.
    const began = since === undefined ? undefined : position.get(since);
    const end = drafts[to];
    for (let at = began === undefined ? 0 : began + 1; at <= to; at++) {
      const draft = drafts[at];
      if (!draft || !end || !inOneRun(draft.place, end.place)) continue;
      if (began !== undefined && !inOneRun(drafts[began]?.place ?? draft.place, draft.place)) continue;
      // In a shorter lane it may begin later by what the longest one has on it.
      const own = most - elapsed.hi + Math.max(0, draft.entry.slack - end.entry.slack);
      if (Number.isFinite(own)) spares[at] = Math.min(spares[at] ?? Number.POSITIVE_INFINITY, own);
    }
  }
  return spares;
}

/** Whether a run comes from the first event to the second: they do not stand in different options, nor does an option end it. */
function inOneRun(first: Place, second: Place): boolean {
  return first.options.every(({ of, option, stops }) => {
    const other = second.options.find((one) => one.of === of);
    return other ? other.option === option : !stops;
  });
}
