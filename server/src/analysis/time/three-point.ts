import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { RandomGenerator } from 'pure-rand/types/RandomGenerator';

/** The shortest, the longest and, if it is known, the most usual length of something; `lo <= usual <= hi`, in any unit of time. */
export interface ThreePoint {
  readonly lo: number;
  readonly hi: number;
  readonly usual?: number | undefined;
}

/**
 * Mean and variance as PERT has them: `(a + 4m + b) / 6` and `((b - a) / 6)²` (Malcolm, Roseboom, Clark and Fazar, Oper Res
 * 1959;7:646-669). Where no usual length is known every length is as likely: `(a + b) / 2` and `(b - a)² / 12`.
 *
 * @throws RangeError of lengths that have no such figures: without an end, or with the usual one outside
 */
export function meanAndVariance(length: ThreePoint): { readonly mean: number; readonly variance: number } {
  const { lo, hi, usual } = sound(length);
  if (usual === undefined) return { mean: (lo + hi) / 2, variance: (hi - lo) ** 2 / 12 };
  return { mean: (lo + 4 * usual + hi) / 6, variance: ((hi - lo) / 6) ** 2 };
}

export interface Simulation {
  /** the shortest outcome that half of the runs, and nine of ten, do not go beyond; the unit of what `play` answers */
  readonly median: number;
  readonly p90: number;
  readonly samples: number;
  readonly seed: number;
}

/**
 * Plays `samples` runs; in each of them `draw` answers how long something takes this time. The same `seed` plays the same runs.
 * Lengths are beta-PERT: a beta distribution over `lo..hi` whose mode is `usual` and whose mean is that of PERT; without `usual` all of
 * `lo..hi` are as likely.
 *
 * @param samples a whole number, 1 or more
 * @throws RangeError of a length that cannot be drawn: without an end, or with the usual one outside
 */
export function simulate(
  samples: number,
  seed: number,
  play: (draw: (length: ThreePoint) => number) => number,
): Simulation {
  if (!Number.isInteger(samples) || samples < 1) throw new RangeError(`${samples} samples: a whole number, 1 or more`);
  const random = xoroshiro128plus(seed);
  const draw = (length: ThreePoint): number => drawn(random, length);
  const outcomes = Float64Array.from({ length: samples }, () => play(draw)).sort();
  const share = (p: number): number => outcomes[Math.ceil(p * samples) - 1] ?? Number.NaN;
  return { median: share(0.5), p90: share(0.9), samples, seed };
}

function drawn(random: RandomGenerator, length: ThreePoint): number {
  const { lo, hi, usual } = sound(length);
  if (lo === hi) return lo;
  if (usual === undefined) return lo + (hi - lo) * uniformFloat64(random);
  // A beta number out of two gamma numbers; its two shapes sum to 6.
  const shape = 1 + (4 * (usual - lo)) / (hi - lo);
  const one = gamma(random, shape);
  return lo + (hi - lo) * (one / (one + gamma(random, 6 - shape)));
}

/** A gamma number of scale 1 and of a `shape` of 1 or more: Marsaglia and Tsang, ACM Trans Math Softw 2000;26:363-372. */
function gamma(random: RandomGenerator, shape: number): number {
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = normal(random);
    const v = (1 + c * x) ** 3;
    if (v <= 0) continue;
    const u = uniformFloat64(random);
    if (u < 1 - 0.0331 * x ** 4 || Math.log(u) < 0.5 * x ** 2 + d * (1 - v + Math.log(v))) return d * v;
  }
}

/** A normal number: Box and Muller, Ann Math Stat 1958;29:610-611. */
function normal(random: RandomGenerator): number {
  const radius = Math.sqrt(-2 * Math.log(1 - uniformFloat64(random)));
  return radius * Math.cos(2 * Math.PI * uniformFloat64(random));
}

function sound(length: ThreePoint): ThreePoint {
  const { lo, hi, usual } = length;
  if (!Number.isFinite(lo) || !Number.isFinite(hi) || lo > hi)
    throw new RangeError(`${lo} to ${hi}: a length is drawn between two ends, the shorter first`);
  if (usual !== undefined && !(lo <= usual && usual <= hi))
    throw new RangeError(`usually ${usual}: not within ${lo} to ${hi}`);
  return length;
}
