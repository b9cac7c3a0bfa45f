import type { Range, TimelineRow } from '@curette/shared';
import { listDuration, stops } from '../analysis/protocol/durations.ts';
import { type Flow, type FlowId, forEachFlow } from '../analysis/protocol/flow.ts';
import type { ProtocolContext } from '../analysis/protocol/protocol.ts';
import type { ScheduleEntry, VisitSchedule } from '../analysis/protocol/schedule.ts';
import { handsFor } from '../analysis/protocol/who-works.ts';
import { roleWords, sayStep, waitWords } from './checklist-steps.ts';
import type { Lines } from './lines.ts';
import { plain, sentence } from './text.ts';
import { beginsWords, endlessToNull, lastsWords } from './timeline-words.ts';

/** What a row is called and what its number is, by its event; for events without a row, of the one around. */
export type Said = (id: FlowId) => { readonly label: string; readonly number: string | null } | undefined;

/** The rows of a visit's timeline: what takes time, what is checked, decided or ends the visit; and what these stand in. */
export function timelineRows(
  context: ProtocolContext,
  items: readonly Flow[],
  { entries, idle }: Pick<VisitSchedule, 'entries' | 'idle'>,
  lines: Lines,
): { readonly rows: TimelineRow[]; readonly said: Said } {
  const making: Making = {
    context,
    lines,
    entries: new Map(entries.map((entry) => [entry.flow.id, entry])),
    waits: new Map(idle.flatMap(({ flow, lasts }) => (flow.type === 'wait' ? [[flow.id, lasts]] : []))),
    rows: [],
    said: new Map(),
    numbers: { top: 0, isInside: false, inner: 0 },
  };
  addList(making, items, { depth: 0, within: [] });
  return { rows: making.rows, said: (id) => making.said.get(id) };
}

interface Making {
  readonly context: ProtocolContext;
  readonly lines: Lines;
  readonly entries: ReadonlyMap<FlowId, ScheduleEntry>;
  /** how long each wait lasts */
  readonly waits: ReadonlyMap<FlowId, Range>;
  readonly rows: TimelineRow[];
  readonly said: Map<FlowId, { readonly label: string; readonly number: string | null }>;
  /** of the main path's last numbered event, whether rows are made for what is inside it, and how many */
  readonly numbers: { top: number; isInside: boolean; inner: number };
}

interface Standing {
  readonly depth: number;
  readonly within: readonly string[];
}

function addList(making: Making, items: readonly Flow[], standing: Standing): void {
  for (const flow of items) {
    if (standing.depth === 0) {
      if (isNumbered(flow)) making.numbers.top += 1;
      making.numbers.isInside = isNumbered(flow);
      making.numbers.inner = 0;
    }
    addOne(making, flow, standing);
  }
}

function addOne(making: Making, flow: Flow, standing: Standing): void {
  const label = labelOf(making.context, flow);
  switch (flow.type) {
    case 'step':
      add(making, flow, 'step', label, standing);
      return;
    case 'pause':
      add(making, flow, 'pause', label, standing);
      return;
    case 'wait':
      add(making, flow, 'wait', label, standing);
      return;
    case 'stop':
      add(making, flow, 'stop', label, standing);
      return;
    case 'plain':
      if (flow.duration.hi > 0)
        add(making, flow, flow.statement.type === 'instruct' ? 'instruct' : 'record', label, standing);
      return;
    case 'call': {
      if (flow.duration.hi > 0 || isOfOneHand(making, flow.items)) {
        const row = add(making, flow, 'step', label, standing);
        if (row) forEachFlow(flow.items, (inner) => making.said.set(inner.id, { label, number: row.number }));
        return;
      }
      inside(making, flow, label, label, flow.items, standing);
      return;
    }
    case 'verify':
      add(making, flow, 'check', label, standing);
      if (flow.otherwise) option(making, flow, 'If not', 'if not', flow.otherwise, standing);
      return;
    case 'decide':
      add(making, flow, 'decide', label, standing);
      for (const branch of flow.branches) {
        const said = branch.assumption.say(branch.assumption.values);
        option(making, flow, sentence(branch.label), `if ${said}`, branch.items, standing);
      }
      return;
    case 'together':
      for (const lane of flow.lanes) {
        const said = sentence(lane.label);
        option(making, flow, `At the same time: ${said}`, `“${said}”, at the same time`, lane.items, standing);
      }
      return;
    case 'repeat': {
      const often = flow.atMost === undefined ? 'again and again' : `up to ${flow.atMost} times`;
      const until = flow.until === undefined ? '' : ` until ${flow.until}`;
      inside(making, flow, `Repeat${until}, ${often}`, often, flow.items, standing);
      return;
    }
    case 'complication':
      option(making, flow, `If it happens: ${label}`, `if it happens: ${label}`, flow.items, standing);
      return;
    default:
      flow satisfies never;
  }
}

/** Rows inside something that may be left out when none of them takes time. */
function option(
  making: Making,
  flow: Flow,
  label: string,
  within: string,
  items: readonly Flow[],
  standing: Standing,
): void {
  if (items.some((inner) => takesTime(inner)) || stops(items)) inside(making, flow, label, within, items, standing);
}

function inside(
  making: Making,
  flow: Flow,
  label: string,
  within: string,
  items: readonly Flow[],
  { depth, within: around }: Standing,
): void {
  const first = items[0] && making.entries.get(items[0].id);
  const last = items.at(-1);
  const end = last && making.entries.get(last.id)?.end;
  const entry = making.entries.get(flow.id);
  if (!entry) return;
  const { start } = first ?? entry;
  const duration = flow.type === 'repeat' ? entry.duration : listDuration(items);
  // How long a lane takes hangs on what it waits for.
  const takes = flow.type === 'together' ? null : lastsWords(duration);
  making.rows.push({
    ...rowOf(making, { ...entry, start, end: end ?? entry.end, duration }, 'group', label, null),
    words: { begins: beginsWords(start), takes },
    depth,
    within: [...around],
    who: [],
    may: [],
  });
  addList(making, items, { depth: depth + 1, within: [...around, within] });
}

function add(
  making: Making,
  flow: Flow,
  type: TimelineRow['type'],
  label: string,
  { depth, within }: Standing,
): TimelineRow | undefined {
  const entry = making.entries.get(flow.id);
  if (!entry) return undefined;
  const number = depth === 0 ? (isNumbered(flow) ? `${making.numbers.top}` : null) : innerNumber(making);
  const row = { ...rowOf(making, itself(making, entry), type, label, number), depth, within: [...within] };
  making.rows.push(row);
  making.said.set(flow.id, { label, number });
  return row;
}

/** A decision or a check without what it leads to, which has rows of its own; a wait for as long as it lasts where it stands. */
function itself({ waits }: Making, entry: ScheduleEntry): ScheduleEntry {
  const { flow, start } = entry;
  if (flow.type === 'wait')
    return { ...entry, duration: { ...entry.duration, ...(waits.get(flow.id) ?? { lo: 0, hi: 0 }) } };
  if (flow.type !== 'decide' && flow.type !== 'verify') return entry;
  const { duration } = flow;
  return { ...entry, duration, end: { lo: start.lo + duration.lo, hi: start.hi + duration.hi } };
}

/** "9a"; of what stands inside something that has no number, none. */
function innerNumber({ numbers }: Making): string | null {
  const letter = letters(numbers.inner);
  numbers.inner += 1;
  return numbers.isInside ? `${numbers.top}${letter}` : null;
}

/** a to z, then aa, ab … */
function letters(nth: number): string {
  const last = String.fromCharCode(97 + (nth % 26));
  return nth < 26 ? last : letters(Math.floor(nth / 26) - 1) + last;
}

function rowOf(
  { context, lines }: Making,
  entry: ScheduleEntry,
  type: TimelineRow['type'],
  label: string,
  number: string | null,
): TimelineRow {
  const { flow, by, start, end, duration, critical, slack, spare } = entry;
  const say = (role: string) => roleWords(context.module, role);
  return {
    line: lines(flow.file, flow.statement),
    type,
    number,
    depth: 0,
    label,
    within: [],
    who: by.map(say),
    may: by.length === 0 ? mayOf(context, flow).map(say) : [],
    start: { earliest: start.lo, latest: endlessToNull(start.hi) },
    end: { earliest: end.lo, latest: endlessToNull(end.hi) },
    takes: { shortest: duration.lo, longest: endlessToNull(duration.hi), usual: duration.usual ?? null },
    critical,
    slack: endlessToNull(slack),
    spare: spare ?? null,
    words: {
      begins: beginsWords(start),
      takes: duration.lo === 0 && !duration.stated ? 'not said' : lastsWords(duration),
    },
  };
}

/** Where any of the team may, nothing has to be said. */
function mayOf(context: ProtocolContext, flow: Flow): readonly string[] {
  const { team } = context.things;
  const { roles } = handsFor(flow, [], team);
  return roles.length < team.size ? roles : [];
}

/** Whether all of a procedure's steps are done by the same people, so that it can be told as one. */
function isOfOneHand({ entries }: Making, items: readonly Flow[]): boolean {
  const hands = new Set<string>();
  forEachFlow(items, (flow) => {
    const entry = entries.get(flow.id);
    if (entry && flow.duration.hi > 0) hands.add(entry.by.join(', '));
  });
  return hands.size <= 1;
}

function takesTime(flow: Flow): boolean {
  let takes = false;
  forEachFlow([flow], (inner) => {
    takes ||= inner.duration.hi > 0;
  });
  return takes;
}

/** The events of the main path that have a number on the checklist. */
function isNumbered(flow: Flow): boolean {
  switch (flow.type) {
    case 'step':
    case 'call':
    case 'wait':
    case 'verify':
    case 'decide':
    case 'together':
    case 'repeat':
      return true;
    case 'plain':
      return flow.statement.type === 'record';
    case 'pause':
    case 'complication':
    case 'stop':
      return false;
    default:
      return flow satisfies never;
  }
}

function labelOf(context: ProtocolContext, flow: Flow): string {
  const module = context.module.module(flow.file) ?? context.module;
  switch (flow.type) {
    case 'step':
    case 'call':
      return sentence(sayStep(module, flow));
    case 'pause':
      return `Pause: ${flow.pause?.label ?? sentence(plain(flow.name))}`;
    case 'wait':
      return waitWords(module, flow);
    case 'verify':
      return `Check: ${flow.label}`;
    case 'decide':
      return `Decide: ${flow.findings.map((finding) => finding.label).join(', ') || sentence(flow.label)}`;
    case 'complication':
      return flow.label;
    case 'stop':
      return `Stop: ${flow.label}`;
    case 'together':
      return 'At the same time';
    case 'repeat':
      return 'Repeat';
    case 'plain':
      return plainLabel(flow);
    default:
      return flow satisfies never;
  }
}

function plainLabel({ statement }: Extract<Flow, { type: 'plain' }>): string {
  switch (statement.type) {
    case 'instruct':
    case 'note':
      return statement.text?.value ?? sentence(statement.type);
    case 'record':
      return `Record: ${plain(statement.what?.text ?? 'record')}`;
    default:
      return sentence(statement.type);
  }
}
