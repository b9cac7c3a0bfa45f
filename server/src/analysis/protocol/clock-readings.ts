import type { Quantity } from '@curette/shared';
import { elapsedAgainst, type Leg, type SideAgainst } from '../calendar/elapsed-against.ts';
import { NO_TIME, type SpanRange } from '../calendar/span.ts';
import type { Rule, TimeLimit } from '../model.ts';
import { SAME_TIME } from '../time/network.ts';
import type { Elapsed } from './clocks.ts';
import { type Course, spanOf } from './course.ts';
import type { Assumption, Flow, FlowId, StepFlow } from './flow.ts';
import type { MarkedFlow, StateFinding } from './following.ts';
import type { StateNeed } from './plan.ts';
import type { ProtocolFacts, VisitFacts } from './protocol.ts';
import { type LimitsConflict, settleChoices } from './team-choices.ts';

/** A time that is asked for up to an event, and what the order of work gives it. Seconds. */
export interface TimeReading {
  readonly flow: MarkedFlow;
  /** the event from whose end it counts; undefined: the beginning */
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

/** How long a thing must have been in a state when a step begins. */
export interface ClockReading extends TimeReading {
  readonly need: StateNeed;
  readonly flow: StepFlow;
}

/** How much time a rule asks for between two steps. */
export interface RuleReading extends TimeReading {
  readonly rule: Rule;
  readonly limit: TimeLimit;
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
  const { need, flow } = finding;
  const { age, ageText, lasts } = need;
  const asked: Asked = {
    least: age?.lo ?? 0,
    most: Math.min(age?.hi ?? Number.POSITIVE_INFINITY, lasts?.seconds ?? Number.POSITIVE_INFINITY),
    spans: [
      limitSpan(ageText, age?.hi ?? Number.POSITIVE_INFINITY),
      { lo: NO_TIME, hi: lasts && spanOf(lasts.limit)?.hi },
    ],
  };
  return { ...read(course, finding, asked, (elapsed) => afterWaits(course, finding, elapsed)), need, flow };
}

/** Reads one clock of a rule. */
export function readRuleClock(course: Course, finding: RuleClockFinding): RuleReading {
  const { rule, limit } = finding;
  const { least, most, written } = limit;
  const asked: Asked = { least, most, spans: [limitSpan(written, most)] };
  return { ...read(course, finding, asked, (elapsed) => elapsed), rule, limit };
}

interface Asked {
  readonly least: number;
  readonly most: number;
  /** the same as a calendar counts it; each is a limit of its own */
  readonly spans: readonly SpanRange[];
}

/** What a limit asks for as a calendar counts it; `for 4 mo` asks for at least that, and then nothing bounds it. */
function limitSpan(limit: Quantity | undefined, most: number): SpanRange {
  const span = limit && spanOf(limit);
  return { lo: span?.lo ?? NO_TIME, hi: Number.isFinite(most) ? span?.hi : undefined };
}

function read(
  course: Course,
  { flow, since, when }: ClockFinding | RuleClockFinding,
  { least, most, spans }: Asked,
  adjust: (elapsed: Elapsed) => Elapsed,
): TimeReading {
  const base = { flow, since, when, least, most, choice: undefined, dates: undefined };
  const reading = course.between(since, flow.id);
  if (!reading.ok) {
    const { reason } = reading;
    return { ...base, elapsed: undefined, reason, soon: 'not told', late: 'not told' };
  }
  const elapsed = adjust(reading.elapsed);
  if (elapsed.legs && !elapsed.gap) return { ...base, elapsed, reason: undefined, ...onDates(spans, elapsed.legs) };
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
  if (known && (known.alone || known.course === course)) return known.clocks;
  const findings: ClockFinding[] = [];
  const ofRules: RuleClockFinding[] = [];
  for (const found of visit.followed.found)
    for (const finding of found) {
      if (finding.type === 'clock') findings.push(finding);
      if (finding.type === 'rule clock') ofRules.push(finding);
    }
  const all: readonly AnyReading[] = [
    ...findings.map((finding) => readClock(course, finding)),
    ...ofRules.map((finding) => readRuleClock(course, finding)),
  ];
  const settled = settleChoices(visit.items, all);
  const at = (number: number) => settled.readings[number];
  const clocks: VisitClocks = {
    readings: new Map(findings.map((finding, number) => [finding, at(number) as ClockReading])),
    rules: new Map(ofRules.map((finding, number) => [finding, at(findings.length + number) as RuleReading])),
    conflicts: settled.conflicts,
  };
  const began = (finding: ClockFinding | RuleClockFinding) =>
    finding.since !== undefined && visit.clock().has(finding.since);
  kept.set(visit, { course, clocks, alone: [...findings, ...ofRules].every(began) });
  return clocks;
}

export type ClockFinding = Extract<StateFinding, { type: 'clock' }>;

export type RuleClockFinding = Extract<StateFinding, { type: 'rule clock' }>;

export type AnyReading = ClockReading | RuleReading;

export interface VisitClocks {
  readonly readings: ReadonlyMap<ClockFinding, ClockReading>;
  readonly rules: ReadonlyMap<RuleClockFinding, RuleReading>;
  readonly conflicts: readonly LimitsConflict[];
}

/** `alone`: all of it began in the visit itself, so that no other visit can change it. */
const kept = new WeakMap<
  VisitFacts,
  { readonly course: Course; readonly clocks: VisitClocks; readonly alone: boolean }
>();

const ORDER: readonly ClockAnswer[] = ['always breaks', 'can break', 'not told', 'holds'];

/** The worse of a reading's two answers. */
export function answerOf(reading: TimeReading): ClockAnswer {
  return ORDER.find((answer) => answer === reading.soon || answer === reading.late) ?? 'holds';
}

/** Limits over several visits are judged on dates, for every date on which the first of them may be. */
function onDates(limits: readonly SpanRange[], legs: readonly Leg[]): Pick<TimeReading, 'soon' | 'late' | 'dates'> {
  const judged = limits.map((limit) => elapsedAgainst(limit, legs));
  const soon = judged.map((one) => one.tooSoon).reduce(worse, HOLDS);
  const late = judged.map((one) => one.tooLate).reduce(worse, HOLDS);
  // Where nothing is counted in months one date is like another.
  const inMonths =
    limits.some(({ lo, hi }) => lo.months > 0 || (hi?.months ?? 0) > 0) ||
    legs.some((leg) => leg.type === 'wait' && (leg.lo.months > 0 || (leg.hi?.months ?? 0) > 0));
  const told = [soon, late].find((side) => 'from' in side);
  return {
    soon: soon.answer,
    late: late.answer,
    dates: told && 'from' in told && inMonths ? told : undefined,
  };
}

const HOLDS: SideAgainst = { answer: 'holds' };

function worse(a: SideAgainst, b: SideAgainst): SideAgainst {
  return ORDER.indexOf(a.answer) <= ORDER.indexOf(b.answer) ? a : b;
}

/** A wait for this very state, since it began: however short the rest, the state is then that old. */
function afterWaits(course: Course, { need, flow, since }: ClockFinding, elapsed: Elapsed): Elapsed {
  if (!elapsed.waits) return elapsed;
  let { lo, hi } = elapsed;
  const ended: { readonly id: FlowId; readonly hi: number }[] = [];
  for (const { flow: part } of elapsed.between()) {
    if (part.type !== 'wait' || part.until?.index !== need.index || part.until.state !== need.state) continue;
    const after = course.between(part.id, flow.id);
    const before = course.between(since, part.id);
    if (!after.ok || !before.ok) continue;
    // A wait behind another one for the same state has that much less to wait for.
    let oldest = before.elapsed.hi;
    for (const earlier of ended) {
      const gap = course.between(earlier.id, part.id);
      if (gap.ok) oldest = Math.min(oldest, earlier.hi + gap.elapsed.hi);
    }
    const end = Math.max(part.until.seconds, oldest);
    ended.push({ id: part.id, hi: end });
    lo = Math.max(lo, part.until.seconds + after.elapsed.lo);
    hi = Math.min(hi, end + after.elapsed.hi);
  }
  return { ...elapsed, lo, hi };
}
