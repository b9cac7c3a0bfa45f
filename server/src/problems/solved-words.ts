import { formatQuantity, type Quantity, withRange } from '@curette/shared';
import type { Solved } from '../analysis/rules/solve.ts';
import { plain } from './words.ts';

/** "when the patient's mass is under 48.6 kg": for which values of a given fact a condition does not hold. */
export function whenSolved(solved: Solved): string {
  const { fact, canBreak, breaks } = solved;
  const sure = breaks !== undefined && sameEnds(breaks, canBreak);
  return `${sure ? '' : 'in some circumstances '}when ${factWords(solved)} is ${oneSided(canBreak, fact.possible)}`;
}

/** "the patient's mass is not stated; it is so from 48.6 kg on": what would have to be stated for a condition to hold. */
export function heldWhen(solved: Solved): string {
  const { canBreak, fact } = solved;
  const said = formatted(canBreak.range.lo > fact.possible.range.lo ? upTo(canBreak) : fromOn(canBreak));
  const bound = canBreak.range.lo > fact.possible.range.lo ? `up to ${said}` : `from ${said} on`;
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

function upTo(part: Quantity): Quantity {
  return withRange(part, { lo: part.range.lo, hi: part.range.lo });
}

function fromOn(part: Quantity): Quantity {
  return withRange(part, { lo: part.range.hi, hi: part.range.hi });
}

/** Three digits, rounded so that no value for which it does not hold is left out. */
function formatted(quantity: Quantity): string {
  return formatQuantity(quantity, { digits: 3, rounding: 'outward' });
}

function sameEnds(one: Quantity, other: Quantity): boolean {
  return one.range.lo === other.range.lo && one.range.hi === other.range.hi;
}
