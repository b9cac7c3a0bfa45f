import type { TimelineRow, TimelineVisit } from '@curette/shared';
import { atLine, html, type Markup, type Piece } from './markup.ts';
import { axisOf, unitOf } from './timeline-axis.ts';
import { textLines } from './timeline-measure.ts';
import { LEFT, line, type Pen, paragraph, pointMark, RIGHT, text } from './timeline-pen.ts';
import { drawClocks, drawWaiting } from './timeline-svg-clocks.ts';
import {
  BEGINS,
  box,
  CHART,
  type Chart,
  drawBandHead,
  drawWords,
  span,
  TAKES,
  type Words,
} from './timeline-svg-row.ts';
import { chairWords, criticalWords, datesWords, marginWords, playedWords } from './timeline-words.ts';

/** More rows than this have a time axis of their own. */
const MOST_ROWS = 48;

/** The visit: what is to be known of it, then a band for each role with what it does, the waiting, and the clocks. */
export function drawVisit(pen: Pen, visit: TimelineVisit, nth: number, team: readonly string[]): void {
  pen.y += 30;
  for (const words of textLines(`${nth}  ${visit.label}`, RIGHT - LEFT, 18, 3, true)) {
    pen.parts.push(html`<g${atLine(visit.line)}>${text(LEFT, pen.y, words, 'visit')}</g>`);
    pen.y += 23;
  }
  pen.parts.push(line('strong', LEFT, pen.y - 14, RIGHT, pen.y - 14));
  pen.y += 6;
  const dates = datesWords(visit);
  if (dates) paragraph(pen, `Date: ${dates}`, 'bold');
  paragraph(pen, chairWords(visit), 'bold');
  const critical = criticalWords(visit);
  if (critical) paragraph(pen, critical, '');
  const played = playedWords(visit);
  if (played) paragraph(pen, played, 'soft');
  if (visit.time === null) return;

  const rows = visit.rows.filter((row) => row.type !== 'group');
  const parts = Math.ceil(rows.length / MOST_ROWS);
  for (let part = 0; part < parts; part++) {
    const shown = rows.slice(part * MOST_ROWS, (part + 1) * MOST_ROWS);
    drawPart(pen, { visit, rows: shown, part, parts, team });
  }
}

interface Part {
  readonly visit: TimelineVisit;
  readonly rows: readonly TimelineRow[];
  readonly part: number;
  readonly parts: number;
  readonly team: readonly string[];
}

/** Bands with one time axis. */
function drawPart(pen: Pen, { visit, rows, part, parts, team }: Part): void {
  const axis = axisOf(rows, 9);
  const x = (seconds: number) => CHART.x + ((seconds - axis.from) / (axis.to - axis.from)) * (CHART.right - CHART.x);
  const chart: Chart = {
    axis,
    at: (seconds) => Math.max(CHART.x, Math.min(CHART.right, x(seconds))),
    isAfter: (seconds) => seconds > axis.to,
  };
  if (parts > 1) {
    pen.y += 12;
    paragraph(pen, `Part ${part + 1} of ${parts}`, 'bold');
  }
  pen.y += 14;
  const top = pen.y;
  drawHead(pen, chart);
  const bands: Pen = { y: pen.y, parts: [] };
  for (const { name, rows: own } of bandsOf(rows, team)) {
    drawBandHead(bands, name);
    for (const row of own) drawRow(bands, row, visit, chart);
  }
  const first = visit.rows.indexOf(rows[0] as TimelineRow);
  const last = visit.rows.indexOf(rows.at(-1) as TimelineRow);
  drawWaiting(bands, visit, chart, rows, first, last);
  drawClocks(bands, visit, chart, rows);
  pen.parts.push(...gridLines(chart, top + 22, bands.y), ...bands.parts);
  pen.y = bands.y;
}

function drawHead(pen: Pen, { axis, at }: Chart): void {
  pen.parts.push(text(BEGINS.x, pen.y + 12, 'begins', 'small soft'), text(TAKES.x, pen.y + 12, 'takes', 'small soft'));
  const last = axis.ticks.at(-1);
  for (const tick of axis.ticks) {
    const words = tick === last ? `${tick.label} ${unitOf(axis)}` : tick.label;
    pen.parts.push(
      text(
        tick === last ? CHART.right + 12 : at(tick.at),
        pen.y + 12,
        words,
        'small soft',
        tick === last ? 'end' : 'middle',
      ),
    );
  }
  pen.y += 20;
}

function gridLines({ axis, at }: Chart, top: number, bottom: number): Markup[] {
  return axis.ticks.map((tick) => line('grid', at(tick.at), top - 4, at(tick.at), bottom));
}

/** Rows by who does them; a row of several roles stands with each. */
function bandsOf(rows: readonly TimelineRow[], team: readonly string[]) {
  const names = new Set(team);
  for (const row of rows) for (const role of row.who) names.add(role);
  const work = rows.filter((row) => row.type !== 'wait');
  return [
    ...[...names].map((name) => ({ name, rows: work.filter((row) => row.who.includes(name)) })),
    { name: 'Nobody named', rows: work.filter((row) => row.who.length === 0) },
  ].filter((band) => band.rows.length > 0);
}

function drawRow(pen: Pen, row: TimelineRow, visit: TimelineVisit, chart: Chart): void {
  const margin = marginWords(visit, row);
  const may = row.who.length === 0 && row.may.length > 0 ? [row.may.join(' or ')] : [];
  const critical = margin === 'critical';
  const more = [...row.within, ...may, ...(margin && !critical ? [margin] : [])];
  const words: Words = {
    number: row.number,
    label: row.label,
    line: row.line,
    more: more.length > 0 ? [more.join(', ')] : [],
    columns: [row.words.begins, row.words.takes ?? ''],
    told: [
      row.label,
      `begins ${row.words.begins}`,
      row.words.takes && `takes ${row.words.takes}`,
      ...more,
      critical && 'critical',
    ]
      .filter(Boolean)
      .join(', '),
    marked: critical ? 'critical' : undefined,
  };
  drawWords(pen, words, (middle) => bar(row, chart, middle, critical ? ' critical' : ''));
}

function bar({ start, end, takes }: TimelineRow, chart: Chart, middle: number, critical: string): Piece {
  if (takes.longest === 0)
    return [span(start, chart, middle), pointMark(chart.at(start.earliest), middle, `mark${critical}`)];
  return box({ start, end }, chart, middle, [`slow${critical}`, `quick${critical}`]);
}
