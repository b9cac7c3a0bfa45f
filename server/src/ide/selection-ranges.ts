import { type Placed, pathAt, type Span, tokenize, words as wordList } from '@curette/grammar';
import type { FileId } from '../problems/problem.ts';
import type { Checked } from './checked.ts';

/**
 * The stretches around a place, each within the next: the word, the value or path it belongs to, the part or clause, the line without
 * its block, the statement, the inside of the block around it, the statement that owns the block, and so on to the whole file.
 */
export function selectionRanges(checked: Checked, id: FileId, offset: number): readonly Span[] {
  const file = checked.snapshot().file(id);
  if (!file || file.trouble) return [];
  const { text, tree } = file;
  const around: Span[] = [{ start: 0, end: text.length }];
  const path = pathAt(tree, offset);
  path.forEach(({ statement, start }, i) => {
    const { head, body, length } = statement;
    const line = { start: start + head.start, end: start + head.end };
    around.push({ start, end: start + length }, { start: line.start, end: start + length });
    if (body) {
      const open = start + body.open;
      const close = body.close === undefined ? start + length : start + body.close;
      around.push({ start: open, end: Math.min(close + 1, start + length) }, trimmed(text, open + 1, close));
    }
    if (i === path.length - 1) around.push(line, ...partsOf(text, path[i] as Placed, offset));
  });
  around.push(...remarkAt(text, offset), ...wordsAt(text, offset));
  return nested(around, offset);
}

/** Those that hold the place, outermost first, each smaller than the one before and within it. */
function nested(around: readonly Span[], offset: number): Span[] {
  const found: Span[] = [];
  const holding = around
    .filter(({ start, end }) => start <= offset && offset <= end && start < end)
    .sort((a, b) => b.end - b.start - (a.end - a.start));
  for (const { start, end } of holding) {
    const last = found.at(-1);
    const within = last === undefined || (start >= last.start && end <= last.end);
    if (within && !(last?.start === start && last.end === end)) found.push({ start, end });
  }
  return found.reverse();
}

/** What the grammar has made of the words of a line, and its clauses. */
function partsOf(text: string, { statement, start }: Placed, offset: number): Span[] {
  const parts: Span[] = [];
  const { head } = statement;
  const visit = (value: unknown): void => {
    if (Array.isArray(value)) for (const item of value) visit(item);
    if (typeof value !== 'object' || value === null || Array.isArray(value)) return;
    if ('start' in value && typeof value.start === 'number' && 'end' in value && typeof value.end === 'number')
      parts.push({ start: start + value.start, end: start + value.end });
    for (const inner of Object.values(value)) visit(inner);
  };
  const { body: _, flaws: __, ...own } = statement;
  visit(own);
  return [...parts, ...clausesOf(text, start + head.start, start + head.end, offset)];
}

const CLAUSES: ReadonlySet<string> = new Set(wordList.clauses.map(({ word }) => word));

/** From the word that begins a clause to the one that begins the next; and from the first of them to the end of the line. */
function clausesOf(text: string, start: number, end: number, offset: number): Span[] {
  const tokens = tokenize(text.slice(start, end));
  const first = tokens.flatMap((token, i) => {
    const word = text.slice(start + token.start, start + token.end);
    // `by` before a number belongs to a size.
    const clause = i > 0 && CLAUSES.has(word) && !(word === 'by' && tokens[i + 1]?.kind === 'number');
    return clause ? [start + token.start] : [];
  });
  return first
    .map((from, i) => trimmed(text, from, first[i + 1] ?? end))
    .concat(first.length > 0 && offset < (first[0] as number) ? [trimmed(text, start, first[0] as number)] : []);
}

/** The word, and of a quoted text also what stands between its marks. */
function wordsAt(text: string, offset: number): Span[] {
  const from = text.lastIndexOf('\n', offset - 1) + 1;
  const stop = text.indexOf('\n', offset);
  const line = text.slice(from, stop < 0 ? text.length : stop);
  const found: Span[] = [];
  for (const { index, 0: word } of line.matchAll(/[\p{L}\p{N}_]+(?:\.\p{N}+)?/gu))
    found.push({ start: from + index, end: from + index + word.length });
  for (const { kind, start, end } of tokenize(line)) {
    if (kind === 'text') found.push({ start: from + start + 1, end: from + end - 1 });
    if (kind !== 'comment' && kind !== 'doc') found.push({ start: from + start, end: from + end });
  }
  return found;
}

/** The line of a remark or doc comment, with and without its marks. */
function remarkAt(text: string, offset: number): Span[] {
  const from = text.lastIndexOf('\n', offset - 1) + 1;
  const stop = text.indexOf('\n', offset);
  const line = text.slice(from, stop < 0 ? text.length : stop);
  const remark = tokenize(line).find(({ kind }) => kind === 'comment' || kind === 'doc');
  if (!remark) return [];
  const marks = /^\/+[ \t]*/.exec(line.slice(remark.start))?.[0].length ?? 0;
  return [
    { start: from + remark.start, end: from + remark.end },
    trimmed(text, from + remark.start + marks, from + remark.end),
  ];
}

function trimmed(text: string, start: number, end: number): Span {
  const inside = text.slice(start, end);
  const left = inside.length - inside.trimStart().length;
  return { start: start + left, end: Math.max(start + left, start + inside.trimEnd().length) };
}
