import stringWidth from 'string-width';
import wrapAnsi from 'wrap-ansi';
import type { FileId, Mend, Problem, Related, Severity } from '../problems/problem.ts';
import { fileName, lineOf, type Position, positionOf, type TextOfFile, visible } from './text.ts';

/** What a stretch of the output is; a painter gives each its colour, or none. */
export type Ink = Severity | 'title' | 'quiet';

export interface TextStyle {
  /** columns of the terminal */
  readonly width: number;
  readonly paint: (ink: Ink, text: string) => string;
  /** how a file is named */
  readonly name: (id: FileId) => string;
}

/** No colour. */
export const unpainted: TextStyle['paint'] = (_, text) => text;

/** Lines longer than this are tiring to read, however wide the terminal is. */
export const WIDEST = 100;

/**
 * A problem as the terminal shows it: what it is, where, the line with the words underlined, what that means, why, on whose
 * authority, what else has to do with it, and how it is mended. Ends without a line end.
 * @param caution what comes before all this, where it speaks of a dose
 */
export function problemText(
  problem: Problem,
  fileOf: (id: FileId) => TextOfFile | undefined,
  style: TextStyle,
  caution?: string,
): string {
  const { paint } = style;
  const width = Math.max(40, Math.min(style.width, WIDEST));
  const file = fileOf(problem.place.file);
  const position = file && positionOf(file, problem.place);
  const related = problem.related.flatMap((one) => relatedAt(one, problem.place.file, fileOf));
  const gutter = Math.max(4, ...[position?.line ?? 0, ...related.map((one) => one.line)].map((n) => `${n}`.length + 2));

  const lines = [headLine(problem, width, paint)];
  const where = visible(style.name(problem.place.file)) + (position ? `:${position.line}:${position.column}` : '');
  lines.push(`${paint(problem.severity, problem.severity)} ${paint('quiet', `in ${where}`)}`);
  if (file && position && file.text.trim() !== '')
    lines.push(...underlined(file, position, problem, gutter, width, paint));
  lines.push(...wrap(problem.message, width));
  if (problem.why) lines.push(...told('Why', problem.why, width, paint));
  if (problem.source) lines.push(...told('Source', problem.source.citation, width, paint));
  if (caution !== undefined) lines.push(...wrap(caution, width));
  lines.push(...relatedLines(related, gutter, width, style));
  lines.push(...mendLines(problem.mends, width, paint));
  return lines.join('\n');
}

/** "2 errors and 1 warning in 1 of 5 files." */
export function summaryText(
  problems: readonly Problem[],
  files: number,
  paint: (ink: Ink, text: string) => string,
): string {
  const checked = counted(files, 'file', 'files');
  const parts = (
    [
      ['error', 'error', 'errors'],
      ['warning', 'warning', 'warnings'],
      ['advice', 'piece of advice', 'pieces of advice'],
    ] as const
  ).flatMap(([severity, one, many]) => {
    const count = problems.filter((problem) => problem.severity === severity).length;
    return count === 0 ? [] : [paint(severity, counted(count, one, many))];
  });
  if (parts.length === 0) return `${checked} checked, no problem found.`;
  const where = new Set(problems.map((problem) => problem.place.file)).size;
  const list = parts.length === 1 ? parts[0] : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`;
  return `${checked} checked: ${list}${files === 1 ? '' : ` in ${counted(where, 'file', 'files')}`}.`;
}

function counted(count: number, one: string, many: string): string {
  return `${count} ${count === 1 ? one : many}`;
}

function headLine(problem: Problem, width: number, paint: TextStyle['paint']): string {
  const title = visible(problem.title);
  const code = visible(problem.rule ?? problem.code);
  const gap = width - stringWidth(title) - stringWidth(code);
  if (gap < 2) return `${paint('title', title)}\n${paint('quiet', code)}`;
  return `${paint('title', title)}${' '.repeat(gap)}${paint('quiet', code)}`;
}

/** The line, and under its words the marks and the label. A line that is too long is shown around the words. */
function underlined(
  file: TextOfFile,
  position: Position,
  problem: Problem,
  gutter: number,
  width: number,
  paint: TextStyle['paint'],
): string[] {
  const whole = lineOf(file, position.line);
  // Only the neighbourhood of the words is looked at: a line may be megabytes long.
  const cut = Math.max(0, position.column - 1 - LONGEST_SHOWN);
  const line = whole.slice(cut, position.column - 1 + LONGEST_SHOWN);
  const from = position.column - 1 - cut;
  const to = position.endLine === position.line ? position.endColumn - 1 - cut : line.length;
  const room = width - gutter - 3;
  const shown = crop(cellsOf(line), from, to, room);
  const marks = '^'.repeat(Math.max(1, shown.length));
  const under = `${' '.repeat(shown.column)}${paint(problem.severity, marks)}`;
  const number = `${position.line}`.padStart(gutter);
  const bar = paint('quiet', '│');
  const lines = [`${paint('quiet', number)} ${bar} ${shown.text}`];
  const label = problem.label && visible(problem.label);
  const blank = ' '.repeat(gutter);
  if (!label) lines.push(`${blank} ${bar} ${under}`);
  else if (shown.column + marks.length + 1 + stringWidth(label) <= room)
    lines.push(`${blank} ${bar} ${under} ${paint(problem.severity, label)}`);
  else {
    lines.push(`${blank} ${bar} ${under}`);
    // No room beside the marks: below them, as far to the right as fits.
    const left = Math.max(0, Math.min(shown.column, room - stringWidth(label)));
    for (const part of wrap(label, room - left))
      lines.push(`${blank} ${bar} ${' '.repeat(left)}${paint(problem.severity, part)}`);
  }
  return lines;
}

/** One character as it is shown, and where it stands in the line. */
interface Cell {
  readonly text: string;
  readonly width: number;
  readonly offset: number;
}

const graphemes = new Intl.Segmenter('en', { granularity: 'grapheme' });

/** More of a line, before the words or after their beginning, is never shown. UTF-16 units. */
const LONGEST_SHOWN = 400;

function cellsOf(line: string): { readonly cells: readonly Cell[]; readonly line: string } {
  const cells: Cell[] = [];
  let column = 0;
  for (const { segment, index } of graphemes.segment(line)) {
    // A tab leads to the next column that four divides.
    const text = segment === '\t' ? ' '.repeat(4 - (column % 4)) : visible(segment);
    const width = stringWidth(text);
    cells.push({ text, width, offset: index });
    column += width;
  }
  return { cells, line };
}

function crop(
  { cells, line }: ReturnType<typeof cellsOf>,
  from: number,
  to: number,
  room: number,
): { readonly text: string; readonly column: number; readonly length: number } {
  const widthOf = (list: readonly Cell[]) => list.reduce((sum, cell) => sum + cell.width, 0);
  let first = 0;
  let end = cells.length;
  if (widthOf(cells) > room) {
    const words = cells.findIndex((cell) => cell.offset >= from);
    const start = words === -1 ? cells.length : words;
    // Two thirds of what fits stand after the beginning of the words.
    first = start;
    for (let width = 0; first > 0 && width < room / 3; first--) width += cells[first - 1]?.width ?? 0;
    end = first;
    for (let width = 2; end < cells.length && width < room; end++) width += cells[end]?.width ?? 0;
    if (end < cells.length) end--;
  }
  const before = first > 0 ? '…' : '';
  const after = end < cells.length ? '…' : '';
  const kept = cells.slice(first, end);
  const column = before.length + widthOf(kept.filter((cell) => cell.offset < from));
  const length = widthOf(kept.filter((cell) => cell.offset >= from && cell.offset < to));
  const text = kept.map((cell) => cell.text).join('');
  return { text: `${before}${text}${after}`, column: Math.min(column, line.length + room), length };
}

interface RelatedLine {
  readonly file: FileId;
  readonly elsewhere: boolean;
  readonly line: number;
  readonly text: string;
  readonly message: string;
}

function relatedAt(related: Related, here: FileId, fileOf: (id: FileId) => TextOfFile | undefined): RelatedLine[] {
  const file = fileOf(related.place.file);
  const position = file && positionOf(file, related.place);
  if (!file || !position) return [];
  const text = lineOf(file, position.line).slice(0, LONGEST_SHOWN).trim();
  return [
    {
      file: related.place.file,
      elsewhere: related.place.file !== here,
      line: position.line,
      text: visible(text),
      message: related.message,
    },
  ];
}

function relatedLines(related: readonly RelatedLine[], gutter: number, width: number, style: TextStyle): string[] {
  const { paint } = style;
  const lines: string[] = [];
  const bar = paint('quiet', '│');
  for (const one of related) {
    if (one.elsewhere) lines.push(`${' '.repeat(gutter)} ${paint('quiet', `in ${visible(style.name(one.file))}`)}`);
    const room = width - gutter - 3;
    const number = paint('quiet', `${one.line}`.padStart(gutter));
    const message = visible(one.message);
    const text = truncate(one.text, room);
    if (stringWidth(text) + stringWidth(message) + 4 <= room)
      lines.push(`${number} ${bar} ${text}  ${paint('quiet', `← ${message}`)}`);
    else {
      lines.push(`${number} ${bar} ${text}`);
      for (const part of wrap(`← ${message}`, room)) lines.push(`${' '.repeat(gutter)} ${bar} ${paint('quiet', part)}`);
    }
  }
  return lines;
}

function truncate(text: string, room: number): string {
  if (stringWidth(text) <= room) return text;
  return crop(cellsOf(text), 0, 0, room).text;
}

function mendLines(mends: readonly Mend[], width: number, paint: TextStyle['paint']): string[] {
  const [first, ...others] = mends;
  if (!first) return [];
  return [
    ...told('Mend', first.title, width, paint),
    ...others.flatMap((mend) => told('or', mend.title, width, paint)),
  ];
}

/** "Why: …", its further lines indented below the text. */
function told(word: string, text: string, width: number, paint: TextStyle['paint']): string[] {
  const head = `${word.padStart(word === 'or' ? 4 : 0)}: `;
  return wrap(text, width - head.length).map((line, i) =>
    i === 0 ? `${paint('title', head.trimEnd())} ${line}` : `${' '.repeat(head.length)}${line}`,
  );
}

/** A message that quotes a text without end is cut here. UTF-16 units. */
const LONGEST_TOLD = 4000;

function wrap(text: string, width: number): string[] {
  const told = text.length > LONGEST_TOLD ? `${text.slice(0, LONGEST_TOLD)}…` : text;
  return wrapAnsi(visible(told), Math.max(width, 10), { trim: true, hard: true }).split('\n');
}

/** How a file is named when nothing else is said. */
export const plainName: TextStyle['name'] = fileName;
