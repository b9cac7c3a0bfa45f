import type { Timeline, TimelineClock, TimelineRow, TimelineVisit } from '@curette/shared';
import stringWidth from 'string-width';
import wrapAnsi from 'wrap-ansi';
import type { TextStyle } from './problem-text.ts';
import { CAUTION, unfitWords, versionWords } from './sheet-words.ts';
import { visible } from './text.ts';
import { type Axis, axisOf, unitOf } from './timeline-axis.ts';
import {
  chairWords,
  clockSpanWords,
  clockWords,
  criticalWords,
  datesWords,
  idleWords,
  marginWords,
  nullToEndless,
  playedWords,
  whoWords,
} from './timeline-words.ts';

/** Signs of a bar. */
const QUICK = '█';
const SLOW = '░';
const MARK = '◆';
const BETWEEN = '·';
const OPEN = '▸';

/** The timeline as text in columns, for a terminal or a plain file. Ends with a line end. */
export function timelineText(line: Timeline, { width, paint }: Pick<TextStyle, 'width' | 'paint'>): string {
  const columns = Math.max(NARROWEST, Math.min(width, WIDEST));
  let nth = 0;
  const parts = [
    [
      paint('title', safe(line.title)),
      ...(line.fit ? [] : [paint('error', `NOT FIT FOR USE: ${unfitWords(line)}`)]),
      safe(versionWords(line)),
      ...wrap(CAUTION, columns).map((text) => paint('quiet', text)),
    ],
    ...(line.course.length === 0 ? [['It has no visits.']] : []),
    ...line.course.map((part) => {
      if (part.type === 'gap')
        return wrap(`then wait ${part.text}${part.because ? ` — ${part.because}` : ''}`, columns);
      nth += 1;
      return visitLines(part, nth, columns, paint);
    }),
  ];
  return `${parts.map((lines) => lines.map((text) => text.trimEnd()).join('\n')).join('\n\n')}\n`;
}

const NARROWEST = 76;
const WIDEST = 150;

function visitLines(visit: TimelineVisit, nth: number, width: number, paint: TextStyle['paint']): string[] {
  const dates = datesWords(visit);
  const critical = criticalWords(visit);
  const method = playedWords(visit);
  const lines = [
    paint('title', safe(`Visit ${nth}: ${visit.label}`)),
    ...(dates ? wrap(`Date: ${dates}`, width) : []),
    ...wrap(chairWords(visit), width),
    ...(critical ? wrap(critical, width) : []),
    ...(method ? wrap(method, width).map((text) => paint('quiet', text)) : []),
  ];
  if (visit.time !== null) lines.push('', ...table(visit, width, paint));
  if (visit.clocks.length > 0) lines.push('', paint('title', 'Clocks'), ...clockLines(visit.clocks, width));
  if (visit.idle.length > 0)
    lines.push(
      '',
      paint('title', 'Time that can be filled'),
      ...visit.idle.flatMap((idle) => hanging('  ', idleWords(idle), width)),
    );
  return lines;
}

interface Column {
  readonly head: string;
  readonly width: number;
  readonly cell: (row: TimelineRow) => string;
  readonly align?: 'right';
}

/** Rows with a bar each. What does not fit into its column goes on below. */
function table(visit: TimelineVisit, width: number, paint: TextStyle['paint']): string[] {
  const fitting = (head: string, most: number, cell: Column['cell']): Column => ({
    head,
    width: Math.min(most, Math.max(stringWidth(head), ...visit.rows.map((row) => stringWidth(cell(row))))),
    cell,
  });
  // In a narrow terminal what does not fit beside the bars goes on below.
  const narrow = width < 100;
  const margins = visit.series ? [] : [fitting('margin', narrow ? 10 : 13, (row) => marked(marginWords(visit, row)))];
  const right = [
    fitting('who', narrow ? 9 : Math.floor(width / 8), (row) =>
      row.type === 'group' ? '' : safe(whoWords(row) ?? '–'),
    ),
    fitting('begins', narrow ? 10 : 15, (row) => (row.type === 'group' ? '' : row.words.begins)),
    fitting('takes', narrow ? 10 : 14, (row) => row.words.takes ?? ''),
    ...margins,
  ];
  const number = fitting('', 5, (row) => row.number ?? '');
  const used = [number, ...right].reduce((sum, column) => sum + column.width + GAP, 0);
  const bar = Math.max(10, Math.floor((width - used) * 0.45));
  const what = {
    head: 'what',
    width: Math.max(10, width - used - GAP - bar),
    cell: (row: TimelineRow) => safe(row.label),
  };
  const columns: readonly Column[] = [number, what, ...right];
  const axis = axisOf(visit.rows, Math.max(2, Math.floor(bar / 6)));
  const head = columns.map((column) => pad(column.head, column.width)).join(' '.repeat(GAP));
  const lines = [paint('quiet', `${head}${' '.repeat(GAP)}${ruler(axis, bar)}`)];
  for (const row of visit.rows) {
    const indent = '  '.repeat(Math.min(row.depth, 6));
    const cells = columns.map((column) => {
      if (column !== what) return wrap(column.cell(row), column.width);
      return wrap(column.cell(row), Math.max(8, what.width - indent.length)).map((text) => indent + text);
    });
    const height = Math.max(1, ...cells.map((cell) => cell.length));
    for (let at = 0; at < height; at++) {
      const text = cells.map((cell, i) => pad(cell[at] ?? '', columns[i]?.width ?? 0)).join(' '.repeat(GAP));
      lines.push(at === 0 && row.type !== 'group' ? `${text}${' '.repeat(GAP)}${barOf(row, axis, bar)}` : text);
    }
  }
  lines.push('', ...legend(visit, width).map((text) => paint('quiet', text)));
  return lines;
}

const GAP = 2;

function marked(margin: string | undefined): string {
  return margin === 'critical' ? '* critical' : (margin ?? '');
}

function legend(visit: TimelineVisit, width: number): string[] {
  const open = visit.rows.some((row) => row.end.latest === null);
  const instant = visit.rows.some((row) => row.type !== 'group' && row.takes.longest === 0);
  const signs = [
    `${QUICK} in the quickest run`,
    `${SLOW} in the slowest run`,
    `${BETWEEN} may be in between`,
    ...(instant ? [`${MARK} takes no stated time`] : []),
    ...(open ? [`${OPEN} no latest time is stated`] : []),
  ];
  return wrap(signs.join(',  '), width);
}

/** "0 min     20     40" */
function ruler(axis: Axis, width: number): string {
  let text = '';
  for (const [nth, { at, label }] of axis.ticks.entries()) {
    const shown = nth === 0 ? `${label} ${unitOf(axis)}` : label;
    const start = Math.min(cellAt(axis, width, at), width - shown.length);
    if (nth === 0 || start > text.length) text = text.padEnd(start) + shown;
  }
  return text;
}

function barOf({ start, end, takes }: TimelineRow, axis: Axis, width: number): string {
  const cells = Array.from({ length: width }, () => ' ');
  const fill = (from: number, to: number, sign: string) => {
    const first = cellAt(axis, width, from);
    for (let at = first; at <= Math.max(first, cellAt(axis, width, to) - 1); at++) cells[at] = sign;
  };
  if (takes.longest === 0) {
    fill(start.earliest, nullToEndless(start.latest), BETWEEN);
    fill(start.earliest, start.earliest, MARK);
  } else {
    fill(start.earliest, nullToEndless(end.latest), BETWEEN);
    if (start.latest !== null && end.latest !== null) fill(start.latest, end.latest, SLOW);
    fill(start.earliest, end.earliest, QUICK);
  }
  if (end.latest === null) cells[width - 1] = OPEN;
  return cells.join('');
}

function cellAt({ from, to }: Axis, width: number, seconds: number): number {
  return Math.max(0, Math.min(width - 1, Math.round(((Math.min(seconds, to) - from) / (to - from)) * (width - 1))));
}

function clockLines(clocks: readonly TimelineClock[], width: number): string[] {
  return clocks.flatMap((clock) => {
    const drawn = clockBar(clock, Math.min(60, width - 20));
    return [
      ...hanging('  ', `${clock.text}, ${clockSpanWords(clock)}`, width),
      ...hanging('    ', clockWords(clock), width - 2),
      ...(drawn ? [`    ${drawn}`] : []),
    ];
  });
}

/** From the moment the state begins: what is allowed in brackets, and in it, one hopes, when the step that asks can begin. */
function clockBar({ allowed, given }: TimelineClock, width: number): string | undefined {
  if (!given) return undefined;
  const ends = [allowed.shortest, allowed.longest, given.shortest, given.longest].filter((end) => end !== null);
  const span = Math.max(...ends) * (allowed.longest === null || given.longest === null ? 1.2 : 1);
  if (span <= 0) return undefined;
  const cell = (seconds: number | null) =>
    Math.min(width - 1, Math.round((nullToEndless(seconds) / span) * (width - 1)));
  const cells = Array.from({ length: width }, () => ' ');
  for (let at = 0; at <= cell(given.shortest); at++) cells[at] = '─';
  for (let at = cell(given.shortest); at <= cell(given.longest); at++) cells[at] = SLOW;
  if (given.longest === null) cells[width - 1] = OPEN;
  cells[cell(allowed.shortest)] = '[';
  if (allowed.longest !== null) cells[cell(allowed.longest)] = ']';
  return cells.join('');
}

function hanging(indent: string, text: string, width: number): string[] {
  return wrap(text, width - indent.length - 2).map((line, i) => `${indent}${i === 0 ? '' : '  '}${line}`);
}

function wrap(text: string, width: number): string[] {
  return wrapAnsi(safe(text), Math.max(width, 4), { trim: true, hard: true }).split('\n');
}

/** Line ends are spaces; whatever else does not show is made to. */
function safe(text: string): string {
  return visible(text.replace(/\s+/g, ' ').trim());
}

function pad(text: string, width: number): string {
  return text + ' '.repeat(Math.max(0, width - stringWidth(text)));
}
