import { sameItems } from '../same-items.ts';
import { type BreakingRun, breakingRun } from '../time/breaking-run.ts';
import { judgeNetwork } from '../time/controllability.ts';
import { type Limit, SAME_TIME } from '../time/network.ts';
import type { AnyReading, ClockAnswer, Run, TimeReading } from './clock-readings.ts';
import { isChosen } from './clocks.ts';
import { type Flow, type FlowId, forEachFlow, type WaitFlow } from './flow.ts';
import { type AskedTime, type LimitOrigin, type VisitNetwork, visitNetwork } from './visit-network.ts';

/** Limits of which each can be kept, but not all of them with the same waits. */
export interface LimitsConflict {
  readonly clocks: readonly AnyReading[];
  /** the waits that would have to be long for one and short for the other */
  readonly waits: readonly WaitFlow[];
  readonly always: boolean;
  /** seconds by which they miss one another */
  readonly by: number;
}

/**
 * Takes into account that the team chooses how long some waits are. Readings that hold whatever it chooses stay as they are; for the others
 * it is asked of the visit's network whether the team, seeing how the work goes, can choose so that they hold (whether it is
 * dynamically controllable): each by itself, then those that share a wait together.
 */
export function settleChoices(
  items: readonly Flow[],
  readings: readonly AnyReading[],
): { readonly readings: readonly AnyReading[]; readonly conflicts: readonly LimitsConflict[] } {
  if (!readings.some(hangsOnChoice)) return { readings, conflicts: [] };
  const places = topLevelPlaces(items);
  const settled = [...readings];
  const open: { readonly number: number; readonly asked: AskedTime; readonly from: number; readonly to: number }[] = [];
  readings.forEach((reading, number) => {
    if (!hangsOnChoice(reading)) return;
    const to = places.get(reading.flow.id);
    const from = reading.since === undefined ? 0 : places.get(reading.since);
    // Begun in an earlier visit: minutes chosen here are nothing beside the days between.
    if (to === undefined || from === undefined) return;
    const asked = askedOf(reading);
    const one = settleOne(stretch(items, from, to), asked, reading);
    settled[number] = one;
    if (one.choice?.type === 'kept') open.push({ number, asked, from, to });
  });

  const conflicts: LimitsConflict[] = [];
  open.sort((a, b) => a.from - b.from);
  for (let first = 0; first < open.length; ) {
    let last = first;
    let end = open[first]?.to ?? 0;
    while (last + 1 < open.length && (open[last + 1]?.from ?? 0) < end) end = Math.max(end, open[++last]?.to ?? 0);
    if (last > first) {
      const group = open.slice(first, last + 1).sort((a, b) => a.to - b.to);
      const conflict = conflictOf(
        stretch(items, open[first]?.from ?? 0, end),
        group.map(({ asked }) => asked),
        group.map(({ number }) => settled[number] as AnyReading),
      );
      if (conflict === 'not told apart')
        for (const { number } of group)
          settled[number] = { ...(readings[number] as AnyReading), choice: { type: 'not told apart' } };
      else if (conflict) conflicts.push(conflict);
    }
    first = last + 1;
  }
  return { readings: settled, conflicts };
}

function hangsOnChoice({ elapsed, soon, late }: TimeReading): boolean {
  return elapsed?.chosen === true && (soon !== 'holds' || late !== 'holds');
}

function askedOf({ since, flow, least, most, when }: TimeReading): AskedTime {
  return { since, until: flow.id, least, most, when };
}

/** The events that a time between two of them hangs on: what comes before them only if something waits for a state begun there. */
function stretch(items: readonly Flow[], from: number, to: number): readonly Flow[] {
  const between = items.slice(from, to + 1);
  let waits = false;
  forEachFlow(between, (flow) => {
    if (flow.type === 'wait' && flow.until) waits = true;
  });
  return waits ? items.slice(0, to + 1) : between;
}

/** What a reading came to, and from what: an edit elsewhere in the visit changes neither. */
interface Settled {
  readonly items: readonly Flow[];
  readonly asked: AskedTime;
  readonly outcome: Pick<TimeReading, 'soon' | 'late' | 'choice'>;
}

const known = new WeakMap<Flow, Settled>();

function settleOne<R extends TimeReading>(items: readonly Flow[], asked: AskedTime, reading: R): R {
  const before = known.get(reading.flow);
  if (before && sameAsked(before.asked, asked) && sameItems(before.items, items))
    return { ...reading, ...before.outcome };
  const settled = choose(items, asked, reading);
  const { soon, late, choice } = settled;
  known.set(reading.flow, { items, asked, outcome: { soon, late, choice } });
  return settled;
}

function sameAsked(a: AskedTime, b: AskedTime): boolean {
  return a.since === b.since && a.least === b.least && a.most === b.most && a.when === b.when;
}

function choose<R extends TimeReading>(items: readonly Flow[], asked: AskedTime, reading: R): R {
  const built = visitNetwork(items, [asked]);
  if (!built) return { ...reading, choice: { type: 'not told apart' } };
  const verdict = judgeNetwork(built.network);
  if (verdict.answer === 'holds') return { ...reading, soon: 'holds', late: 'holds', choice: { type: 'kept' } };
  const { least } = asked;
  const soon = answer(items, { ...asked, most: Number.POSITIVE_INFINITY });
  const late = answer(items, { ...asked, least: 0 });
  if (soon !== 'holds' || late !== 'holds') {
    const side = soon !== 'holds' ? 'soon' : 'late';
    return { ...reading, soon, late, choice: { type: 'not kept', run: runInSpite(built, asked, side) } };
  }
  // Either end can be kept, but not both: the one that the run breaks is told.
  const played = breakingRun(built.network, verdict);
  const run = played && runOf(built, played);
  const side = run && run.seconds < least - SAME_TIME ? 'soon' : 'late';
  return { ...reading, soon: 'holds', late: 'holds', [side]: verdict.answer, choice: { type: 'not kept', run } };
}

/** The run that breaks one end of a limit although every wait is as long, or as short, as it may be. */
function runInSpite(built: VisitNetwork, { least, most }: AskedTime, side: 'soon' | 'late'): Run | undefined {
  const { network } = built;
  const links = [...network.links];
  const events = [...built.events];
  const limits: Limit[] = [];
  const origins: LimitOrigin[] = [];
  network.limits.forEach(({ from, to, lo, hi }, number) => {
    const origin = built.limits[number];
    if (origin?.type === 'chosen') {
      const length = side === 'soon' ? hi : lo;
      links.push({ from, to, lo: length, hi: length });
      events.push([origin.wait]);
    } else if (origin) {
      limits.push(
        side === 'soon' ? { from, to, lo: least, hi: Number.POSITIVE_INFINITY } : { from, to, lo: 0, hi: most },
      );
      origins.push(origin);
    }
  });
  const fixed = { ...built, network: { ...network, links, limits }, events, limits: origins };
  const played = breakingRun(fixed.network, judgeNetwork(fixed.network));
  return played && runOf(fixed, played);
}

function answer(items: readonly Flow[], asked: AskedTime): ClockAnswer {
  const built = visitNetwork(items, [asked]);
  if (!built) return 'not told';
  const verdict = judgeNetwork(built.network);
  if (verdict.answer === 'holds' || built.unstated.size === 0) return verdict.answer;
  // Where it breaks only because a length is not stated, nothing can be told.
  const links = built.network.links.map((link, number) =>
    built.unstated.has(number) ? { ...link, hi: link.lo } : link,
  );
  const quick = judgeNetwork({ ...built.network, links });
  return quick.answer === 'holds' ? 'not told' : quick.answer;
}

function conflictOf(
  items: readonly Flow[],
  asked: readonly AskedTime[],
  clocks: readonly AnyReading[],
): LimitsConflict | 'not told apart' | undefined {
  const built = visitNetwork(items, asked);
  if (!built) return 'not told apart';
  const verdict = judgeNetwork(built.network);
  if (verdict.answer === 'holds') return undefined;
  const inCycle = new Set<AnyReading>();
  const waits = new Set<WaitFlow>();
  for (const part of verdict.cycle) {
    const origin = part.type === 'limit' ? built.limits[part.index] : undefined;
    if (origin?.type === 'asked') inCycle.add(clocks[origin.asked] as AnyReading);
    if (origin?.type === 'chosen') waits.add(origin.wait);
  }
  if (waits.size === 0) for (const origin of built.limits) if (origin.type === 'chosen') waits.add(origin.wait);
  return {
    clocks: inCycle.size > 0 ? clocks.filter((clock) => inCycle.has(clock)) : clocks,
    waits: [...waits],
    always: verdict.answer === 'always breaks',
    by: verdict.by,
  };
}

/** What lay between the two moments of the limit that a run breaks: backwards from the later, by what each moment came of. */
function runOf(built: VisitNetwork, { times, broken }: BreakingRun): Run | undefined {
  const origin = broken.map((limit) => built.limits[limit]).find((limit) => limit?.type === 'asked');
  if (origin?.type !== 'asked') return undefined;
  const { network } = built;
  const time = (point: number) => times[point] ?? 0;
  const parts: Run['parts'][number][] = [];
  for (let point = origin.until; point !== origin.start && point !== 0; ) {
    const link = network.links.findIndex(({ to }) => to === point);
    const join = network.joins.find((other) => other.point === point);
    const chosen = network.limits.findIndex(
      ({ to }, number) => to === point && built.limits[number]?.type === 'chosen',
    );
    const from =
      link >= 0
        ? network.links[link]?.from
        : join
          ? join.after.find(({ from, delay }) => Math.abs(time(from) + delay - time(point)) <= SAME_TIME)?.from
          : network.limits[chosen]?.from;
    if (from === undefined) break;
    const wait = built.limits[chosen];
    const flows = link >= 0 ? (built.events[link] ?? []) : wait?.type === 'chosen' ? [wait.wait] : [];
    const seconds = time(point) - Math.max(time(from), time(origin.start));
    parts.unshift({ flows, seconds, chosen: flows.length === 1 && flows.every(isChosen) });
    point = from;
  }
  return { seconds: time(origin.until) - time(origin.start), parts };
}

function topLevelPlaces(items: readonly Flow[]): ReadonlyMap<FlowId, number> {
  const places = new Map<FlowId, number>();
  items.forEach((item, place) => {
    forEachFlow([item], (flow) => {
      places.set(flow.id, place);
    });
  });
  return places;
}
