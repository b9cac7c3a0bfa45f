import type { Statement } from '@curette/grammar';
import { DAY, secondsOf } from '../kinds/seconds.ts';
import type { Duration } from '../model.ts';
import type { Module } from '../names/module.ts';
import type { Clock, Elapsed, Reading } from './clocks.ts';
import type { FlowId } from './flow.ts';

/** Time over a whole protocol: the clock of each visit, and the waits between visits. */
export interface Course {
  /** from the end of an event (undefined: the beginning of the protocol) to the beginning of another */
  readonly between: (since: FlowId | undefined, until: FlowId) => Reading;
}

/**
 * @param clocks of the visits, in order
 * @param gaps between each visit and the next
 */
export function courseOf(clocks: readonly (() => Clock)[], gaps: readonly Duration[]): Course {
  return {
    between: (since, until) => {
      const last = clocks.findIndex((clock) => clock().has(until));
      const first = since === undefined ? 0 : clocks.findIndex((clock) => clock().has(since));
      const end = clocks[last];
      const start = clocks[first];
      if (!end || !start || first > last) return { ok: false, reason: 'other visit' };
      if (first === last) return end().between(since, until);
      const parts: (Elapsed | undefined)[] = [start().toEnd(since)];
      for (let i = first; i < last; i++) {
        parts.push(fromGap(gaps[i]));
        if (i > first) parts.push(clocks[i]?.().toEnd(undefined));
      }
      const arrival = end().between(undefined, until);
      if (!arrival.ok) return arrival;
      parts.push(arrival.elapsed);
      return { ok: true, elapsed: sum(parts.filter((part) => part !== undefined)) };
    },
  };
}

/**
 * How long a wait between visits lasts, by the clock, in seconds. A number of calendar months is between 2.5 d shorter and 2.5 d longer
 * than that many mean months of 30.4375 d (UCUM 2.2, `mo_j`): enough for any months of the Gregorian calendar.
 */
export function gapOf(module: Module, waits: readonly Statement[]): Duration {
  let gap: Duration | undefined;
  for (const wait of waits) {
    if (wait.type !== 'wait' || !wait.duration) continue;
    const quantity = module.quantity(wait.duration);
    if (!quantity) continue;
    const part = secondsOf(quantity);
    if (!part) continue;
    const uneven = part.calendar ? UNEVEN : 0;
    gap = {
      lo: (gap?.lo ?? 0) + Math.max(0, part.lo - uneven),
      hi: (gap?.hi ?? 0) + part.hi + uneven,
      stated: (gap?.stated ?? true) && Number.isFinite(part.hi),
    };
  }
  return gap ?? { lo: 0, hi: Number.POSITIVE_INFINITY, stated: false };
}

const UNEVEN = 2.5 * DAY;

function fromGap(gap: Duration | undefined): Elapsed {
  const known = gap ?? { lo: 0, hi: Number.POSITIVE_INFINITY, stated: false };
  return {
    lo: known.lo,
    hi: known.hi,
    open: !known.stated,
    gap: !known.stated,
    waits: false,
    chosen: false,
    between: () => [],
  };
}

function sum(parts: readonly Elapsed[]): Elapsed {
  return {
    lo: parts.reduce((total, part) => total + part.lo, 0),
    hi: parts.reduce((total, part) => total + part.hi, 0),
    open: parts.some((part) => part.open),
    gap: parts.some((part) => part.gap),
    waits: parts.some((part) => part.waits),
    chosen: parts.some((part) => part.chosen),
    between: () => parts.flatMap((part) => [...part.between()]),
  };
}
