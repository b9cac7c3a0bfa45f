/**
 * An interval of numbers in base units. Ends belong to it unless marked open (`under`, `over`); infinite ends are
 * where nothing bounds it. Never empty, never NaN.
 *
 * Ends that differ by less than one part in 10^9 (`tolerance`) count as equal, so that 35 N.cm is 0.35 N.m and
 * 300 um is 0.3 mm although binary fractions differ in the last digit. Nothing at the chair is measured that finely,
 * and rounding errors stay a million times smaller.
 */
export interface Range {
  readonly lo: number;
  readonly hi: number;
  readonly openLo?: true;
  readonly openHi?: true;
}

/** Relative difference under which two numbers are the same. */
export const tolerance = 1e-9;

/** Everything: what is known of an unbounded quantity. */
export const anything: Range = { lo: Number.NEGATIVE_INFINITY, hi: Number.POSITIVE_INFINITY };

/** Whether two numbers are the same within `tolerance`. */
export function same(a: number, b: number): boolean {
  if (a === b) return true;
  const apart = Math.abs(a - b);
  return apart < Number.POSITIVE_INFINITY && apart <= tolerance * Math.max(Math.abs(a), Math.abs(b));
}

/**
 * A range from its ends, in either state of openness; an end that is not a number becomes unbounded on its side.
 * `undefined` when the ends leave nothing between them.
 */
export function rangeBetween(lo: number, hi: number, openLo = false, openHi = false): Range | undefined {
  const low = Number.isNaN(lo) ? Number.NEGATIVE_INFINITY : lo;
  const high = Number.isNaN(hi) ? Number.POSITIVE_INFINITY : hi;
  if (low === Number.POSITIVE_INFINITY || high === Number.NEGATIVE_INFINITY) return undefined;
  if (same(low, high) ? openLo || openHi : low > high) return undefined;
  return makeRange(Math.min(low, high), Math.max(low, high), openLo, openHi);
}

export function isPoint(r: Range): boolean {
  return same(r.lo, r.hi);
}

export function addRanges(a: Range, b: Range): Range {
  return makeRange(addEnds(a.lo, b.lo), addEnds(a.hi, b.hi), isOpenLo(a) || isOpenLo(b), isOpenHi(a) || isOpenHi(b));
}

export function negateRange(r: Range): Range {
  return makeRange(0 - r.hi, 0 - r.lo, isOpenHi(r), isOpenLo(r));
}

export function subtractRanges(a: Range, b: Range): Range {
  return addRanges(a, negateRange(b));
}

export function multiplyRanges(a: Range, b: Range): Range {
  const ends = endsOf(a).flatMap((x) => endsOf(b).map((y) => multiplyEnds(x, y)));
  return hull(ends);
}

/**
 * The quotient of two ranges. A divisor that is exactly zero has none (`undefined`). When the divisor may be zero,
 * `throughZero` is set: the range then covers the quotients of all other divisors, unbounded where they are.
 */
export function divideRanges(a: Range, b: Range): { range: Range; throughZero?: true } | undefined {
  if (b.lo === 0 && b.hi === 0) return undefined;
  if (b.lo < 0 && b.hi > 0) return { range: anything, throughZero: true };
  const touches = (b.lo === 0 && !isOpenLo(b)) || (b.hi === 0 && !isOpenHi(b));
  const range = multiplyRanges(a, reciprocal(b));
  return touches ? { range, throughZero: true } : { range };
}

export function minRange(a: Range, b: Range): Range {
  return negateRange(maxRange(negateRange(a), negateRange(b)));
}

export function maxRange(a: Range, b: Range): Range {
  const lo = Math.max(a.lo, b.lo);
  const hi = Math.max(a.hi, b.hi);
  // The greater of two is over an open end as soon as one that ends there is; at most an open end only if all are.
  const openLo = (same(a.lo, lo) && isOpenLo(a)) || (same(b.lo, lo) && isOpenLo(b));
  const openHi = (!same(a.hi, hi) || isOpenHi(a)) && (!same(b.hi, hi) || isOpenHi(b));
  return makeRange(lo, hi, openLo, openHi);
}

/** What two ranges have in common, if anything. */
export function intersectRanges(a: Range, b: Range): Range | undefined {
  const lo = Math.max(a.lo, b.lo);
  const hi = Math.min(a.hi, b.hi);
  const openLo = (same(a.lo, lo) && isOpenLo(a)) || (same(b.lo, lo) && isOpenLo(b));
  const openHi = (same(a.hi, hi) && isOpenHi(a)) || (same(b.hi, hi) && isOpenHi(b));
  return rangeBetween(lo, hi, openLo, openHi);
}

/** The smallest range that covers both. */
export function coverRanges(a: Range, b: Range): Range {
  return hull([...endsOf(a), ...endsOf(b)]);
}

/** Builds a range from ends already in order, leaving out flags that say nothing. */
export function makeRange(lo: number, hi: number, openLo: boolean, openHi: boolean): Range {
  const low = Number.isNaN(lo) ? Number.NEGATIVE_INFINITY : lo;
  const high = Number.isNaN(hi) ? Number.POSITIVE_INFINITY : hi;
  return {
    lo: low,
    hi: high,
    ...(openLo && Number.isFinite(low) ? { openLo: true } : {}),
    ...(openHi && Number.isFinite(high) ? { openHi: true } : {}),
  };
}

export function isOpenLo(r: Range): boolean {
  return r.openLo === true;
}

export function isOpenHi(r: Range): boolean {
  return r.openHi === true;
}

interface End {
  readonly at: number;
  readonly open: boolean;
}

function endsOf(r: Range): [End, End] {
  return [
    { at: r.lo, open: isOpenLo(r) },
    { at: r.hi, open: isOpenHi(r) },
  ];
}

/** Nothing times anything is nothing, also without bound; an end reached through a closed zero is reached. */
function multiplyEnds(x: End, y: End): End {
  if (x.at === 0 || y.at === 0) {
    const open = x.at === 0 && y.at === 0 ? x.open && y.open : x.at === 0 ? x.open : y.open;
    return { at: 0, open };
  }
  return { at: x.at * y.at, open: x.open || y.open };
}

/** Sums that should cancel do: what is left of rounding is dropped. */
function addEnds(a: number, b: number): number {
  return same(a, -b) && Number.isFinite(a) ? 0 : a + b;
}

function reciprocal(b: Range): Range {
  const lo = b.hi === 0 ? Number.NEGATIVE_INFINITY : 1 / b.hi;
  const hi = b.lo === 0 ? Number.POSITIVE_INFINITY : 1 / b.lo;
  return makeRange(lo, hi, isOpenHi(b), isOpenLo(b));
}

function hull(ends: readonly End[]): Range {
  if (ends.some((e) => Number.isNaN(e.at))) return anything;
  const lo = Math.min(...ends.map((e) => e.at));
  const hi = Math.max(...ends.map((e) => e.at));
  const openAt = (at: number): boolean => ends.every((e) => !same(e.at, at) || e.open);
  return makeRange(lo, hi, openAt(lo), openAt(hi));
}
