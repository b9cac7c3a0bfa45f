import { elapsedAgainst, type Leg, type SideAgainst } from '../calendar/elapsed-against.ts';
import { NO_TIME } from '../calendar/span.ts';
import { SAME_TIME } from '../time/network.ts';
import type { Elapsed } from './clocks.ts';
import { type Course, spanOf } from './course.ts';
import type { Assumption, Flow, FlowId, StepFlow } from './flow.ts';
import type { StateNeed } from './plan.ts';
import type { ProtocolFacts, VisitFacts } from './protocol.ts';
import type { StateFinding } from './states.ts';
import { type LimitsConflict, settleChoices } from './team-choices.ts';

/** A time that a step asks for, and what the order of work gives it. Seconds. */
export interface ClockReading {
  readonly need: StateNeed;
  readonly flow: StepFlow;
  /** the event at whose end the state began; undefined: the beginning */
  readonly since: FlowId | undefined;
  /** what must have been found for it to be this event */
  readonly when: readonly Assumption[];
  /** no less than this (0: no matter how short), and no more (may be endless) */
  readonly least: number;
  readonly most: number;
  /** undefined: the two moments do not follow one another in a fixed order */
  readonly elapsed: Elapsed | undefined;
  /** why there is no elapsed time */
  readonly reason: 'side by side' | 'other visit' | undefined;
  /** each end of the limit for itself */
  readonly soon: ClockAnswer;
  readonly late: ClockAnswer;
  /** dates that show how it breaks, where it reaches over several visits and their dates decide */
  readonly dates: { readonly from: string; readonly reached: string; readonly wanted: string } | undefined;
  /** how a choice of the team's changes the answer; undefined: it has none, or the limit holds whatever it chooses */
  readonly choice: Choice | undefined;
}

export type Choice =
  /** the limit holds if the team chooses its waits in view of it */
  | { readonly type: 'kept' }
  /** it cannot be kept whatever the team chooses; the run in which it chooses as well as it can */
  | { readonly type: 'not kept'; readonly run: Run | undefined }
  /** there are more ways through the work than are told apart: judged as if nobody chose */
  | { readonly type: 'not told apart' };

/** One course of the work, as it might go. */
export interface Run {
  /** from the moment the state began to the step, seconds */
  readonly seconds: number;
  /** what lay between, in order; events drawn together have one length */
  readonly parts: readonly { readonly flows: readonly Flow[]; readonly seconds: number; readonly chosen: boolean }[];
}

export type ClockAnswer = 'holds' | 'can break' | 'always breaks' | 'not told';

/** Reads one clock that following the states came upon. */
export function readClock(course: Course, finding: ClockFinding): ClockReading {
  const { need, flow, since, when } = finding;
  const least = need.age?.lo ?? 0;
  const most = Math.min(need.age?.hi ?? Number.POSITIVE_INFINITY, need.lasts?.seconds ?? Number.POSITIVE_INFINITY);
  const base = { need, flow, since, when, least, most, choice: undefined, dates: undefined };
  const reading = course.between(since, flow.id);
  if (!reading.ok) {
    const { reason } = reading;
    return { ...base, elapsed: undefined, reason, soon: 'not told', late: 'not told' };
  }
  const elapsed = afterWaits(course, finding, reading.elapsed);
  if (elapsed.legs && !elapsed.gap) return { ...base, elapsed, reason: undefined, ...onDates(need, elapsed.legs) };
  const { lo, hi } = elapsed;
  const soon = lo >= least - SAME_TIME ? 'holds' : hi < least - SAME_TIME ? 'always breaks' : 'can break';
  const late =
    hi <= most + SAME_TIME
      ? 'holds'
      : lo > most + SAME_TIME
        ? 'always breaks'
        : elapsed.open
          ? 'not told'
          : 'can break';
  return { ...base, elapsed, reason: undefined, soon, late };
}

/** The clocks of a visit, in the order of work. */
export function readClocks(facts: ProtocolFacts, visit: VisitFacts): readonly ClockReading[] {
  return [...visitClocks(facts.course(), visit).readings.values()];
}

/** The clocks of a visit by the finding that asks for each, the team's choices taken into account. */
export function visitClocks(course: Course, visit: VisitFacts): VisitClocks {
  const known = kept.get(visit);
  if (known?.course === course) return known.clocks;
  const findings: ClockFinding[] = [];
  for (const found of visit.followed.found)
    for (const finding of found) if (finding.type === 'clock') findings.push(finding);
  const read = findings.map((finding) => readClock(course, finding));
  const settled = settleChoices(visit.items, read);
  const clocks: VisitClocks = {
    readings: new Map(findings.map((finding, number) => [finding, settled.readings[number] as ClockReading])),
    conflicts: settled.conflicts,
  };
  kept.set(visit, { course, clocks });
  return clocks;
}

export type ClockFinding = Extract<StateFinding, { type: 'clock' }>;

export interface VisitClocks {
  readonly readings: ReadonlyMap<ClockFinding, ClockReading>;
  readonly conflicts: readonly LimitsConflict[];
}

const kept = new WeakMap<VisitFacts, { readonly course: Course; readonly clocks: VisitClocks }>();

const ORDER: readonly ClockAnswer[] = ['always breaks', 'can break', 'not told', 'holds'];

/** The worse of a reading's two answers. */
export function answerOf(reading: ClockReading): ClockAnswer {
  return ORDER.find((answer) => answer === reading.soon || answer === reading.late) ?? 'holds';
}

/** A limit over several visits is judged on dates, for every date on which the first of them may be. */
function onDates(need: StateNeed, legs: readonly Leg[]): Pick<ClockReading, 'soon' | 'late' | 'dates'> {
  const age = need.ageText && spanOf(need.ageText);
  // `for 4 mo` asks for at least that.
  const hi = need.age && Number.isFinite(need.age.hi) ? age?.hi : undefined;
  const ofAge = elapsedAgainst({ lo: age?.lo ?? NO_TIME, hi }, legs);
  const lasts = need.lasts && spanOf(need.lasts.limit)?.hi;
  const ofState = elapsedAgainst({ lo: NO_TIME, hi: lasts }, legs);
  const late = worse(ofAge.tooLate, ofState.tooLate);
  // Where nothing is counted in months one date is like another.
  const inMonths =
    [age?.lo, hi, lasts].some((span) => span && span.months > 0) ||
    legs.some((leg) => leg.type === 'wait' && (leg.lo.months > 0 || (leg.hi?.months ?? 0) > 0));
  const told = [ofAge.tooSoon, late].find((side) => 'from' in side);
  return {
    soon: ofAge.tooSoon.answer,
    late: late.answer,
    dates: told && 'from' in told && inMonths ? told : undefined,
  };
}

function worse(a: SideAgainst, b: SideAgainst): SideAgainst {
  return ORDER.indexOf(a.answer) <= ORDER.indexOf(b.answer) ? a : b;
}

/** A wait for this very state, since it began: however short the rest, the state is then that old. */
function afterWaits(course: Course, { need, flow, since }: ClockFinding, elapsed: Elapsed): Elapsed {
  if (!elapsed.waits) return elapsed;
  let { lo, hi } = elapsed;
  for (const { flow: part } of elapsed.between()) {
    if (part.type !== 'wait' || part.until?.index !== need.index || part.until.state !== need.state) continue;
    const after = course.between(part.id, flow.id);
    const before = course.between(since, part.id);
    if (!after.ok || !before.ok) continue;
    lo = Math.max(lo, part.until.seconds + after.elapsed.lo);
    hi = Math.min(hi, Math.max(part.until.seconds, before.elapsed.hi) + after.elapsed.hi);
  }
  return { ...elapsed, lo, hi };
}
