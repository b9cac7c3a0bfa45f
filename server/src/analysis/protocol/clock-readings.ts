import { SAME_TIME } from '../time/network.ts';
import type { Elapsed } from './clocks.ts';
import type { Course } from './course.ts';
import type { Assumption, FlowId, StepFlow } from './flow.ts';
import type { StateNeed } from './plan.ts';
import type { ProtocolFacts, VisitFacts } from './protocol.ts';
import type { StateFinding } from './states.ts';

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
}

export type ClockAnswer = 'holds' | 'can break' | 'always breaks' | 'not told';

/** Reads one clock that following the states came upon. */
export function readClock(course: Course, finding: Extract<StateFinding, { type: 'clock' }>): ClockReading {
  const { need, flow, since, when } = finding;
  const least = need.age?.lo ?? 0;
  const most = Math.min(need.age?.hi ?? Number.POSITIVE_INFINITY, need.lasts?.seconds ?? Number.POSITIVE_INFINITY);
  const base = { need, flow, since, when, least, most };
  const reading = course.between(since, flow.id);
  if (!reading.ok) {
    const { reason } = reading;
    return { ...base, elapsed: undefined, reason, soon: 'not told', late: 'not told' };
  }
  const elapsed = afterWaits(course, finding, reading.elapsed);
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
  const course = facts.course();
  return visit.followed.found.flatMap((found) =>
    found.flatMap((finding) => (finding.type === 'clock' ? [readClock(course, finding)] : [])),
  );
}

/** The worse of a reading's two answers. */
export function answerOf(reading: ClockReading): ClockAnswer {
  const order: readonly ClockAnswer[] = ['always breaks', 'can break', 'not told', 'holds'];
  return order.find((answer) => answer === reading.soon || answer === reading.late) ?? 'holds';
}

/** A wait for this very state, since it began: however short the rest, the state is then that old. */
function afterWaits(
  course: Course,
  { need, flow, since }: Extract<StateFinding, { type: 'clock' }>,
  elapsed: Elapsed,
): Elapsed {
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
