import { DAY } from '../kinds/seconds.ts';
import { addSpan, type CalendarDate, daysBetween, writeDate } from './date.ts';
import { anyDate, secondsIn, startingDates } from './month-lengths.ts';
import { addSpans, isByClock, NO_TIME, type Span, type SpanRange } from './span.ts';

/** What lies between two moments of a protocol, in order: work within a visit, or the wait between two. */
export type Leg =
  /** seconds; `hi` may be Infinity */
  { readonly type: 'work'; readonly lo: number; readonly hi: number } | ({ readonly type: 'wait' } & SpanRange);

export type SideAgainst =
  | { readonly answer: 'holds' }
  /** something between is without end */
  | { readonly answer: 'not told' }
  | {
      /** on every starting date, however the waits are booked; or on the one that is named, with the waits at the end that breaks it */
      readonly answer: 'always breaks' | 'can break';
      /** ISO 8601 dates: of the beginning, of what is reached then, and of what the limit leads to */
      readonly from: string;
      readonly reached: string;
      readonly wanted: string;
      /** days between the last two; 0 when only the clock tells them apart */
      readonly days: number;
    };

/** A limit's two sides. */
export interface Against {
  /** that at least `limit.lo` has passed */
  readonly tooSoon: SideAgainst;
  /** that at most `limit.hi` has passed */
  readonly tooLate: SideAgainst;
}

/**
 * Judges a limit on the time between two moments of different visits, for every date on which the first of them can be.
 *
 * *Counting.* A side of the limit that has days or months in it is compared on dates with waits that have: four months after 12 March is
 * any time on 12 July, so the minutes of the visits on those days count for nothing, and `at least 10 d` holds after `wait 10 d`. A side
 * in hours or less, and one against waits of hours only, is compared by the clock, with a day as 24 h and the work of the visits counted
 * in. A visit ends on the date on which it began unless its work is a day or more.
 *
 * *Ends.* Between visits a wait is a booking range: `tooSoon` is judged with every leg at its shortest, `tooLate` with every leg at its
 * longest; it breaks *always* when it does with every leg at its other end too, on every date.
 *
 * *Dates.* All starting dates that differ in the months after them are tried, leap years and centuries without one included (`daysIn`
 * spares it where its bounds already tell). Exact for limits and waits of up to fifty years in all; beyond, what the bounds of `daysIn`
 * leave open can break. `from` is a date for which it breaks: `wait 2 mo` twice is no `at least 4 mo` from 31 December.
 *
 * @param limit what is asked for; `hi` undefined for no longest
 * @param legs from the first moment to the second, in order
 */
export function elapsedAgainst(limit: SpanRange, legs: readonly Leg[]): Against {
  return {
    tooSoon: isNothing(limit.lo) ? { answer: 'holds' } : kept('soon', limit.lo, legs),
    tooLate: limit.hi === undefined ? { answer: 'holds' } : kept('late', limit.hi, legs),
  };
}

type Side = 'soon' | 'late';

const answers = new Map<string, SideAgainst>();

const MOST_KEPT = 512;

/** Months of legs and limit together up to which every starting date is tried. */
const MOST_MONTHS = 600;

/** Judged once for each limit and waits: an edit elsewhere asks the same again. */
function kept(side: Side, limit: Span, legs: readonly Leg[]): SideAgainst {
  const counted = countedLegs(limit, legs);
  const key = JSON.stringify([side, limit, counted]);
  const known = answers.get(key);
  if (known) return known;
  const answer = judge(side, limit, counted);
  if (answers.size >= MOST_KEPT) answers.clear();
  answers.set(key, answer);
  return answer;
}

/** The legs as spans, with the work that counts. */
function countedLegs(limit: Span, legs: readonly Leg[]): readonly SpanRange[] {
  const onDates = !isByClock(limit) && legs.some((leg) => leg.type === 'wait' && hasDates(leg));
  return legs.flatMap((leg) => {
    if (leg.type === 'wait') return [{ lo: leg.lo, hi: leg.hi }];
    const work = (seconds: number): Span => ({
      months: 0,
      days: 0,
      seconds: onDates ? Math.floor(seconds / DAY) * DAY : seconds,
    });
    const range = { lo: work(leg.lo), hi: Number.isFinite(leg.hi) ? work(leg.hi) : undefined };
    return range.hi && isNothing(range.hi) ? [] : [range];
  });
}

function judge(side: Side, limit: Span, legs: readonly SpanRange[]): SideAgainst {
  const shortest = legs.map((leg) => leg.lo);
  const longest = legs.map((leg) => leg.hi);
  const endless = longest.some((span) => span === undefined);
  const atLongest = longest.flatMap((span) => span ?? []);
  // The end that breaks the side most easily, and the one that keeps it most easily.
  const worst = side === 'soon' ? shortest : endless ? undefined : atLongest;
  const best = side === 'soon' ? (endless ? undefined : atLongest) : shortest;
  const always = best && breaks(side, limit, best);
  if (always?.every) return { answer: 'always breaks', ...told(always.witness) };
  const some = worst ? breaks(side, limit, worst) : always;
  if (!worst && !some) return { answer: 'not told' };
  return some ? { answer: 'can break', ...told(some.witness) } : { answer: 'holds' };
}

interface Witness {
  readonly from: CalendarDate;
  readonly reached: CalendarDate;
  readonly wanted: CalendarDate;
}

interface Breaking {
  readonly every: boolean;
  readonly witness: Witness;
}

/** Whether a run breaks the side on some starting date or on every one; undefined when on none. */
function breaks(side: Side, limit: Span, run: readonly Span[]): Breaking | undefined {
  const total = run.reduce(addSpans, NO_TIME);
  const bounds = boundsOf(run);
  const wanted = boundsOf([limit]);
  const never = side === 'soon' ? bounds.lo >= wanted.hi : bounds.hi <= wanted.lo;
  if (never) return undefined;
  const months = Math.ceil(Math.max(bounds.hi, wanted.hi) / DAY / 28) + 1;
  // Without months every starting date is like every other.
  const alike = total.months === 0 && limit.months === 0;
  if (!alike && months > MOST_MONTHS) {
    const every = side === 'soon' ? bounds.hi < wanted.lo : bounds.lo > wanted.hi;
    return { every, witness: outcomeFrom(limit, run, anyDate()).witness };
  }
  const monthsAlone = [limit, ...run].every((span) => span.days === 0 && span.seconds === 0);
  let every = true;
  let witness: Witness | undefined;
  for (const from of alike ? [anyDate()] : startingDates(months, monthsAlone ? 'month ends' : 'all days')) {
    const outcome = outcomeFrom(limit, run, from);
    if (side === 'soon' ? outcome.past < -SAME : outcome.past > SAME) witness ??= outcome.witness;
    else every = false;
    if (witness && !every) break;
  }
  return witness && { every, witness };
}

/** Where a run and a limit lead from a date, and by how many seconds the run is past the limit. */
function outcomeFrom(limit: Span, run: readonly Span[], from: CalendarDate): { past: number; witness: Witness } {
  let reached: CalendarDate | undefined = from;
  let seconds = 0;
  for (const span of run) {
    reached = reached && addSpan(reached, { ...span, seconds: 0 });
    seconds += span.seconds;
    const over = Math.floor(seconds / DAY);
    if (reached && over > 0) reached = addSpan(reached, { months: 0, days: over, seconds: 0 });
    seconds -= over * DAY;
  }
  const wanted = addSpan(from, limit);
  // Further than years can be counted: what can be counted comes before it.
  const days = reached && wanted ? daysBetween(wanted, reached) : reached ? -1 : wanted ? 1 : 0;
  return {
    past: days * DAY + seconds - (limit.seconds % DAY),
    witness: { from, reached: reached ?? from, wanted: wanted ?? from },
  };
}

/** Seconds within which two times are the same. */
const SAME = 1e-6;

/** Seconds, over all starting dates. */
function boundsOf(run: readonly Span[]): { readonly lo: number; readonly hi: number } {
  let lo = 0;
  let hi = 0;
  for (const span of run) {
    const counted = secondsIn(span);
    lo += counted.lo;
    hi += counted.hi;
  }
  return { lo, hi };
}

function told({ from, reached, wanted }: Witness) {
  return {
    from: writeDate(from),
    reached: writeDate(reached),
    wanted: writeDate(wanted),
    days: Math.abs(daysBetween(wanted, reached)),
  };
}

function hasDates(range: SpanRange): boolean {
  return !isByClock(range.lo) || (range.hi !== undefined && !isByClock(range.hi));
}

function isNothing(span: Span): boolean {
  return isByClock(span) && span.seconds === 0;
}
