import type { Expr } from '@curette/grammar';
import { fromBase, makeRange, type Quantity, type Range, rangeBetween, toBase, withRange } from '@curette/shared';
import type { Answer, Environment } from './evaluate.ts';
import { judge } from './judge.ts';
import { type OpenFact, openFacts, withFact } from './open-fact.ts';
import { holdsBetween, trend } from './trend.ts';

/** For which values of a given fact a condition does not hold. */
export interface Solved {
  readonly fact: OpenFact;
  /** where it can fail to hold: for certain, or in some circumstances that do not hang on this fact */
  readonly canBreak: Quantity;
  /** where it fails for certain */
  readonly breaks: Quantity | undefined;
}

/** An answer; where it is so in some circumstances, these may be told by one given fact. */
export type SolvedAnswer = Answer & { readonly solved?: Solved | undefined };

/**
 * Judges a condition and, where its answer hangs on one given fact that is a range or not stated, says for which values it does not
 * hold. So an unknown body mass leaves no question open: it is told from which mass on a ceiling is kept.
 *
 * The condition is solved by bisection, where how it is built proves that this finds all: it is monotone in the fact (`trend`), so that
 * its answer changes at one value at most, or it is a comparison of a convex with a concave value (`holdsBetween`), so that it holds
 * between any two values for which it holds; the answers at both ends then say where to look.
 */
export function judgeSolved(expr: Expr | undefined, env: Environment): SolvedAnswer {
  const answer = judge(expr, env);
  if (!expr || answer.answer === 'always' || answer.answer === 'never') return answer;
  const facts = openFacts(expr, env);
  const [fact] = facts;
  if (!fact || facts.length > 1) return answer;
  const moves = trend(expr, env, fact);
  const monotone = moves === 'up' || moves === 'down';
  if (!monotone && !holdsBetween(expr, env, fact)) return answer;
  const at = (value: number): Answer['answer'] => {
    const point = withRange(fact.possible, makeRange(value, value, false, false));
    return judge(expr, withFact(env, fact, point)).answer;
  };
  const span = searched(fact.possible);
  if ([at(span.lo), at(span.hi)].includes('undecided')) return answer;
  const canBreak = whereNot((value) => at(value) === 'always', span, monotone, fact.possible);
  if (canBreak === 'not told') return answer;
  if (!canBreak) return { answer: 'always' };
  const breaks = whereNever(at, canBreak, span, monotone, fact);
  if (breaks && covers(breaks.range, fact.possible.range)) return { answer: 'never' };
  // Whatever the fact is, it can fail: what it hangs on is something else.
  if (!breaks && covers(canBreak.range, fact.possible.range)) return { answer: 'sometimes' };
  return { answer: 'sometimes', solved: { fact, canBreak, breaks } };
}

/** The part of where it can fail in which it fails for certain: mostly all of it. */
function whereNever(
  at: (value: number) => Answer['answer'],
  canBreak: Quantity,
  span: { readonly lo: number; readonly hi: number },
  monotone: boolean,
  { possible }: OpenFact,
): Quantity | undefined {
  const { lo, hi } = canBreak.range;
  const [bad, edge] = lo > possible.range.lo ? [span.hi, lo] : [span.lo, hi];
  const nearEdge = edge + (bad - edge) * 1e-7;
  if (at(bad) === 'never' && at(nearEdge) === 'never') return canBreak;
  const never = whereNot((value) => at(value) !== 'never', span, monotone, possible);
  return never === 'not told' ? undefined : never;
}

/** A value of the fact for which a condition fails most surely: at the end of what is possible. */
export function worstValue({ fact, canBreak }: Solved): Quantity {
  const { lo, hi } = searched(fact.possible);
  const value = canBreak.range.lo > fact.possible.range.lo ? hi : lo;
  return withRange(fact.possible, makeRange(value, value, false, false));
}

// ── where its answer changes ────────────────────────────────────────────────────────────────────────────────────────

/** A value so small, or so large, in its own unit, that nothing at the chair lies beyond it. */
const SMALLEST = 1e-9;
const LARGEST = 1e9;

/** The part of a range in which the answer is looked for: both ends are values. */
function searched({ range, unit }: Quantity): { readonly lo: number; readonly hi: number } {
  const bounded = Number.isFinite(range.lo) && range.lo !== 0;
  return {
    lo: bounded ? range.lo : unit.factor * SMALLEST,
    hi: Number.isFinite(range.hi) ? range.hi : unit.factor * LARGEST,
  };
}

/** The values for which a condition does not hold; undefined when there are none. */
function whereNot(
  holds: (value: number) => boolean,
  { lo, hi }: { readonly lo: number; readonly hi: number },
  monotone: boolean,
  possible: Quantity,
): Quantity | 'not told' | undefined {
  const [below, above] = [holds(lo), holds(hi)];
  if (below && above) return undefined;
  if (!below && !above) return monotone ? possible : 'not told';
  const found = above ? bisect(holds, lo, hi) : bisect(holds, hi, lo);
  const limit = rounded(possible, found);
  // A limit that no number of a few digits writes is not told apart from the values next to it.
  const open = limit === found || holds(limit);
  const { range } = possible;
  const broken = above
    ? rangeBetween(range.lo, limit, range.openLo === true, open)
    : rangeBetween(limit, range.hi, open, range.openHi === true);
  return broken && withRange(possible, broken);
}

/** The value between two at which a condition that holds at the second comes to hold, to twelve digits. */
function bisect(holds: (value: number) => boolean, bad: number, good: number): number {
  let [without, having] = [bad, good];
  for (let round = 0; round < 200 && Math.abs(having - without) > 1e-12 * Math.abs(having); round++) {
    // Over several powers of ten, the middle is that of their logarithms.
    const apart = without > 0 && having > 0 && (having > 4 * without || without > 4 * having);
    const middle = apart ? Math.sqrt(without * having) : (without + having) / 2;
    if (holds(middle)) having = middle;
    else without = middle;
  }
  return having;
}

/** The number of a few digits that a limit is, as far as ends of ranges are told apart (one part in 10^9). */
function rounded({ unit }: Quantity, value: number): number {
  const written = toBase(Number(fromBase(value, unit).toPrecision(6)), unit);
  return Math.abs(written - value) <= 4e-9 * Math.abs(value) ? written : value;
}

function covers(outer: Range, inner: Range): boolean {
  return outer.lo <= inner.lo && outer.hi >= inner.hi;
}
