import type { TimelineMoment } from '@curette/shared';
import { atLine, html, type Markup, type Piece } from './markup.ts';
import type { Axis } from './timeline-axis.ts';
import { textLines } from './timeline-measure.ts';
import { arrow, LEFT, LINE, line, type Pen, RIGHT, rect, short, text, told } from './timeline-pen.ts';

/** Columns of the page. */
const NUMBER = { x: LEFT + 10, width: 32 };
const WHAT = { x: LEFT + 52, width: 298 };
export const BEGINS = { x: WHAT.x + WHAT.width + 14, width: 96 };
export const TAKES = { x: BEGINS.x + BEGINS.width + 8, width: 92 };
export const CHART = { x: TAKES.x + TAKES.width + 18, right: RIGHT - 16 };

/** How high a bar is. */
export const BAR = 12;

/** Where moments are in the picture. */
export interface Chart {
  readonly axis: Axis;
  /** where a moment is, not outside of the chart */
  readonly at: (seconds: number) => number;
  readonly isAfter: (seconds: number) => boolean;
}

export function drawBandHead(pen: Pen, name: string, columns?: readonly [string, string]): void {
  pen.y += 6;
  pen.parts.push(
    rect('wash', LEFT, pen.y, RIGHT - LEFT, 24),
    rect('tab', LEFT, pen.y, 5, 24),
    ...textLines(name, WHAT.width, 13, 1, true).map((words) => text(LEFT + 14, pen.y + 16.5, words, 'band')),
  );
  if (columns)
    pen.parts.push(
      text(BEGINS.x, pen.y + 16, columns[0], 'small soft'),
      text(TAKES.x, pen.y + 16, columns[1], 'small soft'),
    );
  pen.y += 24;
}

export interface Words {
  readonly number: string | null;
  readonly label: string;
  /** where it stands in the text */
  readonly line: number | null;
  readonly more: readonly string[];
  readonly columns: readonly [string, string];
  /** said to who points at it, and to who has it read to them */
  readonly told: string;
  /** what it is marked as */
  readonly marked?: 'critical' | 'breaks' | undefined;
}

/** A row's words on the left, and to the right of them what `draw` draws around the middle of the row. */
export function drawWords(pen: Pen, words: Words, draw: (middle: number) => Piece): void {
  const lines = textLines(words.label, WHAT.width, 13, 4, words.marked !== undefined);
  const more = words.more.flatMap((one) => textLines(one, WHAT.width, 11.5, 3));
  const begins = textLines(words.columns[0], BEGINS.width, 13, 2);
  const takes = textLines(words.columns[1], TAKES.width, 13, 2);
  const height = Math.max(lines.length * LINE + more.length * 15, begins.length * LINE, takes.length * LINE) + 9;
  const first = pen.y + LINE;
  const middle = pen.y + height / 2;
  const parts: Piece[] = [
    words.number !== null && text(NUMBER.x + NUMBER.width - 8, first, words.number, 'soft', 'end'),
    words.marked === 'breaks' && text(WHAT.x - 9, first, '!', 'bold', 'middle'),
    words.marked === 'critical' && criticalSign(WHAT.x - 13, first - 4.5),
    lines.map((one, i) => text(WHAT.x, first + i * LINE, one, words.marked ? 'bold' : '')),
    more.map((one, i) => text(WHAT.x, first + lines.length * LINE + i * 15 - 1, one, 'small soft')),
    begins.map((one, i) => text(BEGINS.x, first + i * LINE, one, '')),
    takes.map((one, i) => text(TAKES.x, first + i * LINE, one, '')),
    draw(middle),
    line('grid', LEFT + 5, pen.y + height, RIGHT, pen.y + height),
  ];
  pen.parts.push(html`<g${atLine(words.line)}><title>${told(words.told, LONGEST_TOLD)}</title>
${parts}</g>
`);
  pen.y += height;
}

/** Before the words of a critical step. */
export function criticalSign(x: number, y: number): Markup {
  return html`<path class="sign" d="M${short(x)} ${short(y - 4.5)}l8 4.5l-8 4.5z"/>
`;
}

const LONGEST_TOLD = 400;

export interface Stretch {
  readonly start: TimelineMoment;
  readonly end: TimelineMoment;
}

/** Where it is in the quickest run and in the slowest, and a line where it may be in between. */
export function box(
  { start, end }: Stretch,
  chart: Chart,
  middle: number,
  [slow, quick]: readonly [string, string],
): Piece {
  const at = (className: string, from: number, to: number) => {
    const x = chart.at(from);
    return rect(className, x, middle - BAR / 2, Math.max(2.5, chart.at(to) - x), BAR);
  };
  return [
    span({ earliest: start.earliest, latest: end.latest }, chart, middle),
    start.latest !== null && end.latest !== null && at(slow, start.latest, end.latest),
    at(quick, start.earliest, end.earliest),
  ];
}

export function span({ earliest, latest }: TimelineMoment, chart: Chart, middle: number): Piece {
  const from = chart.at(earliest);
  if (latest !== null) return latest > earliest && line('between', from, middle, chart.at(latest), middle);
  return [line('between', from, middle, CHART.right - 6, middle), arrow(CHART.right, middle, 'right')];
}
