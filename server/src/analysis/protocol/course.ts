import type { Statement } from '@curette/grammar';
import type { Quantity } from '@curette/shared';
import type { Leg } from '../calendar/elapsed-against.ts';
import { secondsIn } from '../calendar/month-lengths.ts';
import { addSpans, type Span, type SpanRange, spanRangeOf } from '../calendar/span.ts';
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
export function courseOf(clocks: readonly (() => Clock)[], gaps: readonly Gap[]): Course {
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

/** What stands between a visit and the next. */
export interface Gap {
  /** as a calendar counts it; undefined: nothing says how long */
  readonly span: SpanRange | undefined;
  /** seconds, from any starting date */
  readonly lo: number;
  readonly hi: number;
}

/** How long the waits between two visits last together. */
export function gapOf(module: Module, waits: readonly Statement[]): Gap {
  let span: SpanRange | undefined;
  for (const wait of waits) {
    const quantity = wait.type === 'wait' && wait.duration ? module.quantity(wait.duration) : undefined;
    const part = quantity && spanOf(quantity);
    if (part) span = span ? { lo: addSpans(span.lo, part.lo), hi: both(span.hi, part.hi) } : part;
  }
  return {
    span,
    lo: span ? secondsIn(span.lo).lo : 0,
    hi: span?.hi ? secondsIn(span.hi).hi : Number.POSITIVE_INFINITY,
  };
}

/** A time as a calendar counts it; part of a month is anything from none of it to the whole. */
export function spanOf(quantity: Quantity): SpanRange | undefined {
  const reading = spanRangeOf(quantity);
  if (reading.ok) return reading.range;
  if (reading.fault === 'not time') return undefined;
  const { lo, hi } = quantity.range;
  const months = (number: number): Span => ({ months: Math.max(0, number), days: 0, seconds: 0 });
  return { lo: months(Math.floor(lo)), hi: Number.isFinite(hi) ? months(Math.ceil(hi)) : undefined };
}

function both(a: Span | undefined, b: Span | undefined): Span | undefined {
  return a && b && addSpans(a, b);
}

function fromGap(gap: Gap | undefined): Elapsed {
  const { span, lo, hi } = gap ?? { span: undefined, lo: 0, hi: Number.POSITIVE_INFINITY };
  const endless = !Number.isFinite(hi);
  const legs: Leg[] | undefined = span && [{ type: 'wait', ...span }];
  return { lo, hi, open: endless, gap: span === undefined, waits: false, chosen: false, legs, between: () => [] };
}

function sum(parts: readonly Elapsed[]): Elapsed {
  return {
    lo: parts.reduce((total, part) => total + part.lo, 0),
    hi: parts.reduce((total, part) => total + part.hi, 0),
    open: parts.some((part) => part.open),
    gap: parts.some((part) => part.gap),
    waits: parts.some((part) => part.waits),
    chosen: parts.some((part) => part.chosen),
    legs: parts.flatMap(({ legs, lo, hi }): readonly Leg[] => legs ?? [{ type: 'work', lo, hi }]),
    between: () => parts.flatMap((part) => [...part.between()]),
  };
}
