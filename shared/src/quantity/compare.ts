import { commonDimension } from './dimension.ts';
import type { Quantity, Size } from './quantity.ts';
import { isOpenHi, isOpenLo, isPoint, type Range, same } from './range.ts';

export type Comparison = '<' | '<=' | '>' | '>=' | '=' | 'within';

/**
 * Whether a comparison of ranges holds whatever the two values turn out to be (`always`), for none of them (`never`),
 * or for some (`sometimes`).
 */
export type Verdict = 'always' | 'never' | 'sometimes';

/**
 * Compares two quantities; `incomparable` when they measure different things (then say so: nothing was decided).
 * `within` takes the right side as the set of allowed values.
 */
export function compare(a: Quantity, op: Comparison, b: Quantity): Verdict | 'incomparable' {
  return commonDimension(a.dimension, b.dimension) === undefined ? 'incomparable' : compareRanges(a.range, op, b.range);
}

/**
 * Compares two sizes side by side, longest with longest, whichever way they are turned: `<=` asks whether `a` fits
 * into `b`. `incomparable` when they differ in number of sides.
 */
export function compareSizes(a: Size, op: Exclude<Comparison, 'within'>, b: Size): Verdict | 'incomparable' {
  if (a.length === 0 || a.length !== b.length) return 'incomparable';
  for (const side of [...a, ...b]) {
    const [first] = a;
    if (first === undefined || side.dimension !== first.dimension) return 'incomparable';
  }
  const left = sidesLongestFirst(a);
  const right = sidesLongestFirst(b);
  let verdict: Verdict = 'always';
  for (const [i, side] of left.entries()) {
    const other = right[i];
    if (other === undefined) return 'incomparable';
    const one = compareRanges(side, op, other);
    if (one === 'never') return 'never';
    if (one === 'sometimes') verdict = 'sometimes';
  }
  return verdict;
}

/** `compare` on ranges of one dimension. */
export function compareRanges(a: Range, op: Comparison, b: Range): Verdict {
  switch (op) {
    case '<':
      return verdict(alwaysUnder(a, b), alwaysAtLeast(a, b));
    case '<=':
      return verdict(alwaysAtLeast(b, a), alwaysUnder(b, a));
    case '>':
      return verdict(alwaysUnder(b, a), alwaysAtLeast(b, a));
    case '>=':
      return verdict(alwaysAtLeast(a, b), alwaysUnder(a, b));
    case '=':
      return verdict(isPoint(a) && isPoint(b) && same(a.lo, b.lo), alwaysUnder(a, b) || alwaysUnder(b, a));
    case 'within':
      return verdict(isInside(a, b), alwaysUnder(a, b) || alwaysUnder(b, a));
    default:
      return op satisfies never;
  }
}

function verdict(always: boolean, never: boolean): Verdict {
  if (always) return 'always';
  return never ? 'never' : 'sometimes';
}

/** Every value of `a` is less than every value of `b`. */
function alwaysUnder(a: Range, b: Range): boolean {
  if (same(a.hi, b.lo)) return Number.isFinite(a.hi) && (isOpenHi(a) || isOpenLo(b));
  return a.hi < b.lo;
}

/** Every value of `a` is at least every value of `b`. */
function alwaysAtLeast(a: Range, b: Range): boolean {
  return a.lo > b.hi || (same(a.lo, b.hi) && Number.isFinite(a.lo));
}

function isInside(a: Range, b: Range): boolean {
  const low = same(a.lo, b.lo) ? isOpenLo(a) || !isOpenLo(b) : a.lo > b.lo;
  const high = same(a.hi, b.hi) ? isOpenHi(a) || !isOpenHi(b) : a.hi < b.hi;
  return low && high;
}

/** The k-th longest side lies between the k-th greatest lower end and the k-th greatest upper end. */
function sidesLongestFirst(size: Size): Range[] {
  const lows = size.map((q) => q.range).sort((a, b) => b.lo - a.lo);
  const highs = size.map((q) => q.range).sort((a, b) => b.hi - a.hi);
  return lows.map((low, i) => {
    const high = highs[i] ?? low;
    return {
      lo: low.lo,
      hi: high.hi,
      ...(low.openLo && { openLo: true as const }),
      ...(high.openHi && { openHi: true as const }),
    };
  });
}
