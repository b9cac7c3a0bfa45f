import type { Comparison } from './compare.ts';
import { commonDimension, type Dimension, multiplyDimensions } from './dimension.ts';
import type { Quantity } from './quantity.ts';
import { intersectRanges, isOpenHi, isOpenLo, makeRange, negateRange, type Range, subtractRanges } from './range.ts';

/** One side of a comparison, linear in the unknown: `coefficient × unknown + constant`; what is absent is nought. */
export interface Linear {
  readonly coefficient?: Quantity;
  readonly constant?: Quantity;
}

/**
 * For which values of the unknown a comparison holds. A part is absent when no value the unknown can have is in it;
 * what is neither in `holds` nor in `breaks` depends on the other ranges.
 */
export interface Solution {
  /** Holds for certain. */
  readonly holds?: Quantity;
  /** Breaks for certain. */
  readonly breaks?: Quantity;
  /** Breaks for certain or in some circumstances: what is left when `holds` is taken away. */
  readonly canBreak?: Quantity;
}

/**
 * Solves a comparison for its one unknown: `136 mg <= 7 mg/kg × mass` breaks for a mass under 19.4 kg. `unknown` says
 * what is known beforehand: dimension, possible range (`at least 0 kg`), unit to answer in.
 *
 * `undefined` when the dimensions do not fit, the unknown is on neither side or cancels, or its coefficient may be
 * nought or of either sign. Closed form: both sides are gathered into `a·x <= rest`.
 */
export function solveFor(
  left: Linear,
  op: Exclude<Comparison, '=' | 'within'>,
  right: Linear,
  unknown: Quantity,
): Solution | undefined {
  if (!dimensionsFit(left, right, unknown)) return undefined;
  const upper = op === '<' || op === '<=';
  const [lesser, greater] = upper ? [left, right] : [right, left];
  const strict = op === '<' || op === '>';
  const a = gather(lesser.coefficient, greater.coefficient);
  const rest = gather(greater.constant, lesser.constant);
  if (a.lo > 0) return solution(boundsAbove(a, rest, strict), unknown);
  if (a.hi < 0) return solution(mirrored(boundsAbove(negateRange(a), rest, strict)), unknown);
  return undefined;
}

interface Bounds {
  readonly holds: Range;
  readonly breaks: Range;
  readonly canBreak: Range;
}

const nothing: Range = { lo: 0, hi: 0 };

function gather(plus: Quantity | undefined, minus: Quantity | undefined): Range {
  return minus === undefined ? (plus?.range ?? nothing) : subtractRanges(plus?.range ?? nothing, minus.range);
}

function dimensionsFit(left: Linear, right: Linear, unknown: Quantity): boolean {
  const terms: Dimension[] = [];
  for (const { coefficient, constant } of [left, right]) {
    if (coefficient !== undefined) terms.push(multiplyDimensions(coefficient.dimension, unknown.dimension));
    if (constant !== undefined) terms.push(constant.dimension);
  }
  return terms.every((a) => terms.every((b) => commonDimension(a, b) !== undefined));
}

/**
 * `a·x <= rest` (or `<`) with `a > 0` throughout. It holds for certain up to where the greatest product meets the least
 * rest, and breaks for certain beyond where the least product meets the greatest rest.
 */
function boundsAbove(a: Range, rest: Range, strict: boolean): Bounds {
  const sure = rest.lo >= 0 ? rest.lo / a.hi : rest.lo / a.lo;
  const lost = rest.hi >= 0 ? rest.hi / a.lo : rest.hi / a.hi;
  const sureNotReached = isOpenLo(rest) || (rest.lo >= 0 ? isOpenHi(a) : isOpenLo(a));
  const lostNotReached = isOpenHi(rest) || (rest.hi >= 0 ? isOpenLo(a) : isOpenHi(a));
  const sureOpen = strict && !sureNotReached;
  return {
    holds: makeRange(Number.NEGATIVE_INFINITY, sure, false, sureOpen),
    breaks: makeRange(lost, Number.POSITIVE_INFINITY, !strict && !lostNotReached, false),
    canBreak: makeRange(sure, Number.POSITIVE_INFINITY, !sureOpen, false),
  };
}

/** The unknown with the opposite sign. */
function mirrored({ holds, breaks, canBreak }: Bounds): Bounds {
  return { holds: negateRange(holds), breaks: negateRange(breaks), canBreak: negateRange(canBreak) };
}

function solution(bounds: Bounds, unknown: Quantity): Solution {
  const possible = (range: Range): Quantity | undefined => {
    const shared = intersectRanges(range, unknown.range);
    return shared && { dimension: unknown.dimension, range: shared, unit: unknown.unit };
  };
  const holds = possible(bounds.holds);
  const breaks = possible(bounds.breaks);
  const canBreak = possible(bounds.canBreak);
  return { ...(holds && { holds }), ...(breaks && { breaks }), ...(canBreak && { canBreak }) };
}
