import { formatSource, type Quantity } from '@curette/shared';
import type { Mend } from '../../problems/problem.ts';
import { placeOf } from '../model.ts';
import { SAME_TIME } from '../time/network.ts';
import type { ClockReading } from './clock-readings.ts';
import { durationOf } from './durations.ts';
import { type Flow, innerLists, type StepFlow } from './flow.ts';
import { labelOf, timeQuantity } from './flow-words.ts';
import { insertStep } from './mends.ts';
import type { Telling } from './telling.ts';

/**
 * What may give a state its time, to be tried out before it is offered: to wait for it, to begin what brings it about sooner or later, and
 * to hold a step between to a time that leaves enough.
 */
export function timeMends(telling: Telling, reading: ClockReading, side: 'too soon' | 'too late'): readonly Mend[] {
  if (reading.flow.call || !reading.elapsed || reading.elapsed.gap) return [];
  if (reading.elapsed.legs) return rebooked(telling, reading);
  return side === 'too soon'
    ? [...waitFor(telling, reading), ...moved(telling, reading, 'earlier'), ...held(reading, 'at least')]
    : [...moved(telling, reading, 'later'), ...held(reading, 'at most')];
}

function waitFor({ module }: Telling, { flow, need, least }: ClockReading): Mend[] {
  const { thing, state } = need;
  return [
    insertStep(
      `Wait until ${thing.label} is ${state.replaceAll('_', ' ')} for ${words(least)}`,
      `wait until ${thing.name} is ${state} for ${words(least)}`,
      { where: 'before', file: module.id, statement: flow.statement.id },
    ),
  ];
}

/** The step that brings the state about, put before or after another so that the work between is long or short enough. */
function moved(telling: Telling, reading: ClockReading, way: 'earlier' | 'later'): Mend[] {
  const { elapsed, since, flow, least, most } = reading;
  const began = since === undefined ? undefined : telling.flow(since);
  const list = began && listWith(telling.items, began);
  if (!elapsed || began?.type !== 'step' || began.call || !list?.includes(flow)) return [];
  const at = list.indexOf(began);
  let { lo, hi } = elapsed;
  const enough = () => lo >= least - SAME_TIME && hi <= most + SAME_TIME;
  const step = way === 'earlier' ? -1 : 1;
  for (let other = at + step; ; other += step) {
    const passed = list[other];
    if (!passed || passed === flow || passed.call) return [];
    const { lo: shortest, hi: longest } = durationOf(passed);
    lo -= step * shortest;
    hi -= step * longest;
    if (!enough()) continue;
    const where = way === 'earlier' ? 'before' : 'after';
    const file = telling.module.id;
    return [
      {
        title: `Move "${labelOf(began)}" ${where} "${labelOf(passed)}"`,
        edits: [
          { type: 'remove', file, statement: began.statement.id },
          { type: 'insert', where, file, statement: passed.statement.id, lines: [telling.written(began)] },
        ],
      },
    ];
  }
}

/** The longest of the steps between, held to a shorter or a longer time than it says. */
function held({ elapsed, least, most }: ClockReading, bound: 'at least' | 'at most'): Mend[] {
  if (!elapsed) return [];
  const missing = bound === 'at least' ? least - elapsed.lo : elapsed.hi - most;
  if (!Number.isFinite(missing)) return [];
  const steps = elapsed
    .between()
    .map(({ flow }) => flow)
    .filter((flow): flow is StepFlow => flow.type === 'step' && !flow.call && room(flow) >= missing - SAME_TIME);
  const longest = steps.sort((a, b) => room(b) - room(a))[0];
  if (longest?.statement.type !== 'step') return [];
  const { lo, hi } = longest.duration;
  const bounded = bound === 'at least' ? { lo: lo + missing, hi } : { lo, hi: hi - missing };
  const { takes, head } = longest.statement;
  const text = rangeWritten(bounded.lo, bounded.hi);
  const clause = takes?.duration;
  return [
    {
      title: `Hold "${labelOf(longest)}" to ${bound} ${words(bound === 'at least' ? bounded.lo : bounded.hi)}`,
      edits: [
        {
          type: 'replace',
          place: placeOf(longest.file, longest.statement, clause ?? { start: head.end, end: head.end }),
          text: clause ? text : ` takes ${text}`,
        },
      ],
    },
  ];
}

function room(flow: Flow): number {
  return flow.duration.stated ? flow.duration.hi - flow.duration.lo : Number.POSITIVE_INFINITY;
}

/** The wait between two visits, as much of it as the limit leaves; all of the limit where it leaves nothing. */
function rebooked(telling: Telling, { since, flow, need }: ClockReading): Mend[] {
  const wait = telling.waitBetween(since, flow.id);
  const written = wait?.duration && telling.module.quantity(wait.duration);
  const limit = need.ageText ?? need.lasts?.limit;
  if (!wait?.duration || !written || !limit || written.dimension !== limit.dimension) return [];
  const least = need.ageText ? limit.range.lo : 0;
  const most = limit.range.lo === limit.range.hi && need.ageText ? Number.POSITIVE_INFINITY : limit.range.hi;
  const lo = Math.max(written.range.lo, least);
  const hi = Math.min(Math.max(written.range.hi, least), most);
  const [from, to] = lo <= hi ? [lo, hi] : [least, most];
  const text = formatSource({ ...written, range: { lo: from, hi: to } });
  return [
    {
      title: `Wait ${text} between the visits`,
      edits: [{ type: 'replace', place: placeOf(telling.module.id, wait, wait.duration), text }],
    },
  ];
}

/** The list that an event stands in. */
function listWith(items: readonly Flow[], wanted: Flow): readonly Flow[] | undefined {
  if (items.includes(wanted)) return items;
  for (const item of items)
    for (const inner of innerLists(item)) {
      const found = listWith(inner, wanted);
      if (found) return found;
    }
  return undefined;
}

/** A time as it is written in a protocol, in the unit a person would choose. */
function words(seconds: number): string {
  return formatSource(timeQuantity(seconds));
}

function rangeWritten(lo: number, hi: number): string {
  const top = timeQuantity(hi);
  const range: Quantity = { ...top, range: { lo, hi } };
  return formatSource(range);
}
