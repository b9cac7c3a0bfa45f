import { exactly, formatQuantity, fromBase, type Quantity, withRange } from '@curette/shared';
import type { Solved } from '../analysis/rules/solve.ts';
import type { Severity } from './problem.ts';
import { plain } from './words.ts';

/** "when the patient's mass is under 48.6 kg": for which values of a given fact a condition does not hold. */
export function whenSolved(solved: Solved): string {
  const { fact, canBreak, breaks } = solved;
  const sure = breaks !== undefined && sameEnds(breaks, canBreak);
  return `${sure ? '' : 'in some circumstances '}when ${factWords(solved)} is ${oneSided(canBreak, fact.possible)}`;
}

/** "that is not so when the patient's mass is under 48.6 kg"; `when`: on which paths, where it is so on others */
export function notSo(always: boolean, solved: Solved | undefined, when: string | undefined): string {
  if (when !== undefined) return `that is not so when ${when}`;
  if (always) return 'that is not so';
  if (!solved) return 'that is not so in some circumstances';
  return solved.fact.stated ? `that is not so ${whenSolved(solved)}` : heldWhen(solved);
}

/** What hangs on a fact that is not stated is a question first. */
export function solvedSeverity(severity: Severity, solved: Solved | undefined): Severity {
  return solved && !solved.fact.stated && severity === 'error' ? 'warning' : severity;
}

/** "the patient's mass is not stated, and that is sure only from 48.6 kg on": what would have to be stated for it to hold. */
export function heldWhen(solved: Solved): string {
  const { range } = solved.canBreak;
  const above = range.lo > solved.fact.possible.range.lo;
  const bound = above
    ? `up to ${edge(solved.canBreak, range.lo, 'down')}`
    : `from ${edge(solved.canBreak, range.hi, 'up')} on`;
  return `${factWords(solved)} is not stated, and that is sure only ${bound}`;
}

/** "the patient's mass" */
function factWords({ fact }: Solved): string {
  return `the ${fact.thing.label}'s ${plain(fact.property)}`;
}

/** What is possible beyond it anyway goes without saying: "under 48.6 kg", not "2–48.6 kg". */
function oneSided(part: Quantity, possible: Quantity): string {
  const { lo, hi, openLo, openHi } = part.range;
  if (lo > possible.range.lo)
    return formatted(withRange(part, { lo, hi: Number.POSITIVE_INFINITY, ...(openLo && { openLo }) }));
  return formatted(withRange(part, { lo: Number.NEGATIVE_INFINITY, hi, ...(openHi && { openHi }) }));
}

/** Digits that matter at the chair. */
const DIGITS = 3;

/** Rounded so that no value for which it does not hold is left out. */
function formatted(quantity: Quantity): string {
  return formatQuantity(quantity, { digits: DIGITS, rounding: 'outward' });
}

function edge({ unit }: Quantity, base: number, way: 'up' | 'down'): string {
  const value = fromBase(base, unit);
  const step = value === 0 ? 1 : 10 ** (Math.floor(Math.log10(Math.abs(value))) + 1 - DIGITS);
  const steps = Number((value / step).toPrecision(9));
  return formatQuantity(exactly((way === 'up' ? Math.ceil(steps) : Math.floor(steps)) * step, unit));
}

function sameEnds(one: Quantity, other: Quantity): boolean {
  return one.range.lo === other.range.lo && one.range.hi === other.range.hi;
}
