import { compareRanges } from './compare.ts';
import { unitsOf } from './parse-unit.ts';
import { fromBase, type Quantity, toBase } from './quantity.ts';
import { makeRange, same } from './range.ts';
import type { Unit } from './unit.ts';

/** A right number with the wrong unit. */
export interface Slip {
  /** How many times too large the written value is; under 1 when it is too small. */
  readonly factor: number;
  readonly suggestedUnit: Unit;
  /** The written number in the suggested unit. */
  readonly suggested: Quantity;
}

/**
 * The unit that was probably meant, when a value lies wholly outside what is plausible and the same number in another
 * usual unit of its dimension would lie wholly inside: `300..900 mm` where 1 um to 5 mm is plausible is `um`.
 * Slips of a thousand are taken before those of ten, a hundred and a million, and these before any other factor.
 */
export function slipOf(value: Quantity, plausible: Quantity): Slip | undefined {
  if (value.dimension !== plausible.dimension || !Number.isFinite(value.range.lo) || !Number.isFinite(value.range.hi)) {
    return undefined;
  }
  if (compareRanges(value.range, 'within', plausible.range) !== 'never') return undefined;
  const slips: Slip[] = [];
  for (const unit of unitsOf(value.dimension)) {
    if (same(unit.factor, value.unit.factor) && same(unit.offset, value.unit.offset)) continue;
    const suggested = sameNumberIn(value, unit);
    if (compareRanges(suggested.range, 'within', plausible.range) !== 'always') continue;
    slips.push({ factor: value.unit.factor / unit.factor, suggestedUnit: unit, suggested });
  }
  return slips.sort((a, b) => unlikeliness(a.factor) - unlikeliness(b.factor))[0];
}

function sameNumberIn(value: Quantity, unit: Unit): Quantity {
  const { lo, hi, openLo, openHi } = value.range;
  const moved = (base: number): number => toBase(fromBase(base, value.unit), unit);
  return { dimension: value.dimension, range: makeRange(moved(lo), moved(hi), openLo === true, openHi === true), unit };
}

const likelyPowers = [3, 1, 2, 6];

function unlikeliness(factor: number): number {
  const power = Math.abs(Math.log10(factor));
  const place = likelyPowers.findIndex((likely) => Math.abs(power - likely) < 1e-6);
  return place < 0 ? likelyPowers.length : place;
}
