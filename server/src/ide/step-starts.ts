import type { Range } from '@curette/shared';
import { perChunk } from '../analysis/protocol/chunks.ts';
import { type Flow, type FlowId, forEachFlow } from '../analysis/protocol/flow.ts';
import type { ProtocolFacts, VisitFacts } from '../analysis/protocol/protocol.ts';
import { beginningsOf, type Windows, windowsOf } from '../analysis/protocol/windows.ts';

/** When an event of a visit can begin, in seconds since the beginning of the visit; `hi` may be Infinity. */
export type StepStart = (event: FlowId) => Range | undefined;

/**
 * The starts of a visit's events, as its windows have them. Without a wait for a state a stretch of a visit takes as long wherever it
 * stands: then only the stretches that have changed since somebody asked last are played again, as long as a keystroke lets.
 */
export function stepStarts(protocol: ProtocolFacts, visit: VisitFacts): StepStart {
  const known = kept.get(visit);
  if (known) return known;
  const starts = visit.chunks.some(waitsForState) ? playedThrough(protocol, visit) : fromStretches(visit);
  kept.set(visit, starts);
  return starts;
}

const kept = new WeakMap<VisitFacts, StepStart>();

function playedThrough(protocol: ProtocolFacts, visit: VisitFacts): StepStart {
  const { windows } = windowsOf(visit.items, beginningsOf(protocol, visit));
  return (event) => windows.get(event)?.start;
}

function fromStretches({ chunks }: VisitFacts): StepStart {
  let now: Range = { lo: 0, hi: 0 };
  const stretches = chunks.map((chunk) => {
    const { windows, end } = windowsOfStretch(chunk);
    const start = now;
    now = later(now, end);
    return { windows, start };
  });
  return (event) => {
    for (const { windows, start } of stretches) {
      const window = windows.get(event);
      if (window) return later(start, window.start);
    }
    return undefined;
  };
}

/** Counted from the beginning of the stretch. */
const windowsOfStretch = perChunk((chunk): Windows => windowsOf(chunk.items, () => []));

const waitsForState = perChunk((chunk): boolean => {
  let waits = false;
  forEachFlow(chunk.items, (flow: Flow) => {
    waits ||= flow.type === 'wait' && flow.until !== undefined;
  });
  return waits;
});

function later(start: Range, by: Range): Range {
  return { lo: start.lo + by.lo, hi: start.hi + by.hi };
}
