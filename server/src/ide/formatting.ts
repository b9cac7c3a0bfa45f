import {
  braceIndentation,
  type Formatted,
  format,
  indentation,
  parse,
  type Statement,
  type SyntaxTree,
  tokenize,
} from '@curette/grammar';
import { parseUnit } from '@curette/shared';
import { diffArrays } from 'diff';

/** A replacement in a text; several never overlap, and stand in the order of the text. */
export interface LayoutEdit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** A text in its one layout, its units spelled as the codes have them. */
export function layOut(text: string, tree = parse(text)): Formatted {
  return format(text, { spell, tree });
}

/** What laying a text out changes; nothing where something in it can not be read. */
export function formatDocument(text: string, tree = parse(text)): readonly LayoutEdit[] {
  const { text: result } = layOut(text, tree);
  return result === undefined || result === text ? [] : editsBetween(text, result);
}

/**
 * The same for the statements that a range touches, each of them whole. What can not be read elsewhere in the file does not matter,
 * but for the declarations that are touched themselves.
 */
export function formatRange(text: string, tree: SyntaxTree, start: number, end: number): readonly LayoutEdit[] {
  const declarations = touched(tree.body, 0, start, end);
  if (!tree.sound || declarations === undefined) return [];
  const from = startOfLine(text, declarations.start);
  const part = text.slice(from, declarations.end);
  const { text: result } = layOut(part);
  if (result === undefined) return [];
  const statements = innermost(tree.body, start, end);
  if (statements === undefined) return [];
  const first = startOfLine(text, statements.start);
  const last = endOfLine(text, statements.end);
  return editsBetween(part, result.trimEnd())
    .map((edit) => ({ start: from + edit.start, end: from + edit.end, text: edit.text }))
    .filter((edit) => edit.start <= last && (edit.end > first || edit.start >= first));
}

/** A new line has been begun: its indentation. @param at where the cursor stands */
export function formatNewLine(text: string, tree: SyntaxTree, at: number): readonly LayoutEdit[] {
  const start = startOfLine(text, at);
  return indentTo(text, start, indentation(text, tree, wordAfter(text, start)));
}

/** A `}` has been typed: if it begins its line, it stands below the head of its block. @param at behind the brace */
export function formatBrace(text: string, tree: SyntaxTree, at: number): readonly LayoutEdit[] {
  const start = startOfLine(text, at - 1);
  if (text[at - 1] !== '}' || wordAfter(text, start) !== at - 1) return [];
  const indent = braceIndentation(text, tree, at - 1);
  return indent === undefined ? [] : indentTo(text, start, indent);
}

function spell(unit: string): string {
  const known = parseUnit(unit);
  return known.ok ? known.canonical : unit;
}

/** More differences than this are not told one by one. */
const MOST_DIFFERENCES = 1000;

/**
 * What changes between the words of a text and those of another that has nearly the same: places in words that stay, and with them
 * cursors and marks, are not touched.
 */
export function editsBetween(text: string, other: string): readonly LayoutEdit[] {
  const [before, after] = [tokenize(text), tokenize(other)];
  const image = (of: string) => (token: { start: number; end: number }) => of.slice(token.start, token.end);
  const parts = diffArrays(before.map(image(text)), after.map(image(other)), { maxEditLength: MOST_DIFFERENCES });
  const edits: LayoutEdit[] = [];
  let [ended, otherEnded] = [0, 0];
  const between = (start: number, otherStart: number) => {
    const edit = shortened({ start: ended, end: start, text: other.slice(otherEnded, otherStart) }, text);
    if (edit) edits.push(edit);
  };
  let [at, otherAt] = [0, 0];
  for (const { added, removed, value } of parts ?? []) {
    if (removed) at += value.length;
    else if (added) otherAt += value.length;
    else
      for (const _ of value) {
        const [word, otherWord] = [before[at++], after[otherAt++]];
        if (!word || !otherWord) continue;
        between(word.start, otherWord.start);
        [ended, otherEnded] = [word.end, otherWord.end];
      }
  }
  between(text.length, other.length);
  return edits;
}

/** Without what is the same at its two ends; undefined when nothing is left. */
function shortened({ start, end, text: by }: LayoutEdit, text: string): LayoutEdit | undefined {
  const old = text.slice(start, end);
  if (old === by) return undefined;
  const shorter = Math.min(old.length, by.length);
  let same = 0;
  while (same < shorter && old[same] === by[same]) same++;
  let behind = 0;
  while (behind < shorter - same && old[old.length - 1 - behind] === by[by.length - 1 - behind]) behind++;
  return { start: start + same, end: end - behind, text: by.slice(same, by.length - behind) };
}

interface Span {
  readonly start: number;
  readonly end: number;
}

/** From the first to the last of the statements of a block that a range touches. */
function touched(body: SyntaxTree['body'], from: number, start: number, end: number): Span | undefined {
  let span: Span | undefined;
  for (const [at, { length }] of body.items.entries()) {
    const itemStart = from + (body.offsets[at] ?? 0);
    if (itemStart > end || itemStart + length < start) continue;
    span = { start: span?.start ?? itemStart, end: itemStart + length };
  }
  return span;
}

/** The same in the innermost block that holds the range. */
function innermost(body: SyntaxTree['body'], start: number, end: number, from = 0): Span | undefined {
  for (const [at, { body: inside }] of (body.items as readonly Statement[]).entries()) {
    const itemStart = from + (body.offsets[at] ?? 0);
    if (inside?.close === undefined || start <= itemStart + inside.open || end > itemStart + inside.close) continue;
    return innermost(inside, start, end, itemStart);
  }
  return touched(body, from, start, end);
}

function indentTo(text: string, start: number, indent: number): readonly LayoutEdit[] {
  const end = wordAfter(text, start);
  const edit = shortened({ start, end, text: ' '.repeat(indent) }, text);
  return edit ? [edit] : [];
}

function startOfLine(text: string, at: number): number {
  return text.lastIndexOf('\n', at - 1) + 1;
}

function endOfLine(text: string, at: number): number {
  const end = text.indexOf('\n', at);
  return end < 0 ? text.length : end;
}

/** Where the first word of a line stands; in a line without any, its end. */
function wordAfter(text: string, start: number): number {
  let at = start;
  while (text[at] === ' ' || text[at] === '\t') at++;
  return at;
}
