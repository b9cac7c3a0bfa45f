import type { Range } from '@curette/shared';
import type { Course } from './course.ts';
import { listDuration } from './durations.ts';
import { type Flow, type FlowId, forEachFlow, type TogetherFlow, type WaitFlow } from './flow.ts';
import type { Beginnings, Window } from './windows.ts';

/** Time in which somebody has nothing to do: a wait, or a lane that is over before the others. Something else fits in there. */
export interface Idle {
  readonly flow: WaitFlow | TogetherFlow;
  /** the lane that waits; undefined for a wait, in which everybody in the same lane does */
  readonly lane: string | undefined;
  /** roles; empty: whoever is there */
  readonly by: readonly string[];
  /** when it begins, seconds since the beginning of the visit */
  readonly from: Range;
  /** when what is waited for is over */
  readonly until: Range;
  /** how long it lasts, seconds; `lo` 0 where it may not come to it */
  readonly lasts: Range;
}

/**
 * Waiting that the team can fill, in the order of work.
 * @param rolesIn those who do what stands in the lane that an event stands in
 */
export function idleOf(
  items: readonly Flow[],
  windows: ReadonlyMap<FlowId, Window>,
  course: Course,
  began: Beginnings,
  rolesIn: (flow: Flow) => readonly string[],
): readonly Idle[] {
  const idle: Idle[] = [];
  forEachFlow(items, (flow) => {
    const window = windows.get(flow.id);
    if (!window) return;
    if (flow.type === 'wait') {
      const lasts = waitOf(flow, course, began);
      if (lasts.hi > 0)
        idle.push({ flow, lane: undefined, by: rolesIn(flow), from: window.start, until: window.end, lasts });
    }
    if (flow.type === 'together') idle.push(...lanesOf(flow, window.start, windows, began));
  });
  return idle;
}

/** A wait for a state takes what is left of its time when the work before it is over. */
function waitOf(flow: WaitFlow, course: Course, began: Beginnings): Range {
  const { until, duration } = flow;
  if (!until) return { lo: duration.lo, hi: duration.hi };
  const left = began(flow).map((since): Range => {
    const reading = course.between(since, flow.id);
    if (since === undefined || !reading.ok) return { lo: 0, hi: until.seconds };
    const { lo, hi } = reading.elapsed;
    return { lo: Math.max(0, until.seconds - hi), hi: Math.max(0, until.seconds - lo) };
  });
  if (left.length === 0) return { lo: 0, hi: 0 };
  return { lo: Math.min(...left.map(({ lo }) => lo)), hi: Math.max(...left.map(({ hi }) => hi)) };
}

/** What each lane is over before the last of the others. */
function lanesOf(flow: TogetherFlow, start: Range, windows: ReadonlyMap<FlowId, Window>, began: Beginnings): Idle[] {
  const lanes = flow.lanes.map((lane) => {
    const last = lane.items.at(-1);
    const end = (last && windows.get(last.id)?.end) ?? start;
    // What waits for nothing from outside is shortest when all in it is, longest likewise.
    const alone = Number.isFinite(end.hi) && isAlone(lane.items, began);
    return { lane, takes: alone ? { lo: end.lo - start.lo, hi: end.hi - start.hi } : listDuration(lane.items) };
  });
  return lanes.flatMap(({ lane, takes }) => {
    const others = lanes.filter((other) => other.lane !== lane);
    const last = {
      lo: Math.max(0, ...others.map((other) => other.takes.lo)),
      hi: Math.max(0, ...others.map((other) => other.takes.hi)),
    };
    // A lane without an end may be the last whatever the others do.
    const lo = Number.isFinite(takes.hi) ? Math.max(0, last.lo - takes.hi) : 0;
    const hi = Math.max(0, last.hi - takes.lo);
    if (hi === 0) return [];
    const from = { lo: start.lo + takes.lo, hi: start.hi + takes.hi };
    const until = { lo: start.lo + last.lo, hi: start.hi + last.hi };
    return [{ flow, lane: lane.label, by: lane.by, from, until, lasts: { lo, hi } }];
  });
}

/** Whether every wait for a state in a lane is for one that begins in it. */
function isAlone(items: readonly Flow[], began: Beginnings): boolean {
  const inside = new Set<FlowId>();
  let alone = true;
  forEachFlow(items, (flow) => {
    inside.add(flow.id);
    if (flow.type === 'wait' && flow.until)
      alone &&= began(flow).every((since) => since !== undefined && inside.has(since));
  });
  return alone;
}
