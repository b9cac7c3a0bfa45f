import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { Verdict } from './controllability.ts';
import { brokenLimits, strategyOf } from './dispatch.ts';
import type { TimeNetwork } from './network.ts';

/** A run in which a limit is not kept. */
export interface BreakingRun {
  /** by link, seconds */
  readonly durations: Float64Array;
  /** by moment, seconds */
  readonly times: Float64Array;
  /** indices of limits, at least one */
  readonly broken: readonly number[];
}

/** More stretches than this are not tried in all combinations of their shortest and longest. */
const MOST_COMBINED = 6;

/** How many runs are tried at random when those that the cycle suggests break nothing. */
const MOST_TRIED = 400;

/**
 * A run of a network that does not hold, played as `strategyOf` says, that breaks a limit: stretches in the cycle as short or as long
 * as it says, the others as short as they may be, or else as long. A cycle may want one stretch both short and long, by what the team
 * does: then both are tried. Where none of these breaks a limit, further runs are tried, the same each time.
 *
 * @returns undefined if the network holds, or no such run was found
 */
export function breakingRun(network: TimeNetwork, verdict: Verdict): BreakingRun | undefined {
  if (verdict.answer === 'holds') return undefined;
  const { links } = network;
  const play = strategyOf(network);
  for (const durations of candidates(network, verdict)) {
    const times = play((link) => durations[link] ?? links[link]?.lo ?? 0);
    const broken = brokenLimits(network, times);
    if (broken.length > 0) return { durations, times, broken };
  }
  return undefined;
}

function* candidates(network: TimeNetwork, verdict: Exclude<Verdict, { answer: 'holds' }>): Generator<Float64Array> {
  const { links } = network;
  const sides = new Map<number, Set<'lo' | 'hi'>>();
  for (const part of verdict.cycle) {
    if (part.type !== 'link') continue;
    sides.set(part.index, (sides.get(part.index) ?? new Set()).add(part.side));
  }
  const both = [...sides].filter(([, wanted]) => wanted.size > 1).map(([link]) => link);
  const combined = both.slice(0, MOST_COMBINED);
  for (const other of ['lo', 'hi'] as const) {
    for (let set = 0; set < 1 << combined.length; set++) {
      yield Float64Array.from(links, (link, index) => {
        const place = combined.indexOf(index);
        const [side = other] = sides.get(index) ?? [];
        if (place < 0) return link[side];
        return set & (1 << place) ? link.hi : link.lo;
      });
    }
  }

  const random = xoroshiro128plus(links.length);
  for (let tried = 0; tried < MOST_TRIED; tried++) {
    yield Float64Array.from(links, ({ lo, hi }) => {
      // Mostly at an end.
      const step = uniformInt(random, 0, 9);
      if (step < 4) return lo;
      return step < 8 ? hi : lo + ((hi - lo) * uniformInt(random, 0, 1000)) / 1000;
    });
  }
}
