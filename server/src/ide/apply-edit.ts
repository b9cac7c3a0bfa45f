import type { Body, Container, Statement } from '@curette/grammar';
import { type Located, locate, offsetsOf } from '../analysis/locate.ts';
import type { SourceFile } from '../analysis/snapshot.ts';
import type { Edit, FileId } from '../problems/problem.ts';
import type { Checked } from './checked.ts';

/** A replacement in the text of a file as it is now; several never overlap. */
export interface Replacement {
  readonly file: FileId;
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/**
 * What edits come to in the text: with the indentation of their surroundings, in a block on one line as in one over several.
 * Undefined when one of them can not be made: its place is gone, or is in the shipped library.
 */
export function replacementsOf(
  checked: Pick<Checked, 'snapshot'>,
  edits: readonly Edit[],
): readonly Replacement[] | undefined {
  const all: Replacement[] = [];
  for (const edit of edits) {
    const id = edit.type === 'replace' ? edit.place.file : edit.file;
    const file = id.startsWith('library:') ? undefined : checked.snapshot().file(id);
    const made = file && !file.trouble ? replacementOf(file, edit) : undefined;
    if (made === undefined) return undefined;
    if (made !== 'nothing to do') all.push({ file: id, ...made });
  }
  return joined(all);
}

type Change = Omit<Replacement, 'file'>;

function replacementOf(file: SourceFile, edit: Edit): Change | 'nothing to do' | undefined {
  switch (edit.type) {
    case 'replace': {
      const span = offsetsOf(file.tree, edit.place);
      return span && { ...span, text: apart(file.text, span, edit.text) };
    }
    case 'insert': {
      const located = locate(file.tree, edit.statement);
      return located && insertBeside(file, located, edit.where, edit.lines);
    }
    case 'append': {
      const located = locate(file.tree, edit.statement);
      return located && appendTo(file, located, edit.lines);
    }
    case 'remove': {
      const located = locate(file.tree, edit.statement);
      return located && remove(file, located);
    }
    case 'add use':
      return addUse(file, edit.path);
    default:
      return edit satisfies never;
  }
}

/** A word in place of a sign does not grow together with the words beside it: `9 mm×8 mm` → `9 mm by 8 mm`. */
function apart(text: string, { start, end }: { start: number; end: number }, by: string): string {
  const word = /[\p{L}\p{N}_]/u;
  const joins = (outside: string | undefined, replaced: string | undefined, inside: string | undefined) =>
    [outside, inside].every((sign) => sign !== undefined && word.test(sign)) && !word.test(replaced ?? '');
  const before = start < end && joins(text[start - 1], text[start], by[0]) ? ' ' : '';
  const after = start < end && joins(text[end], text[end - 1], by.at(-1)) ? ' ' : '';
  return `${before}${by}${after}`;
}

/** Where commas part what stands on one line. */
const COMMAS: ReadonlySet<Container> = new Set([
  'team',
  'finding',
  'things',
  'properties',
  'source',
  'case',
  'figures',
  'figure',
]);

const STEP = '  ';

function insertBeside(
  file: SourceFile,
  { statement, start, parent }: Located,
  where: 'before' | 'after',
  lines: readonly string[],
): Change {
  const { text } = file;
  const end = start + statement.length;
  if (parent && onOneLine(text, parent)) {
    const body = parent.statement.body as Body;
    const at = body.items.findIndex((item) => item.id === statement.id);
    const position = where === 'before' ? at : at + 1;
    return COMMAS.has(body.container)
      ? where === 'before'
        ? { start, end: start, text: `${lines.join(', ')}, ` }
        : { start: end, end, text: `, ${lines.join(', ')}` }
      : spread(file, parent, position, lines);
  }
  const indent = indentAt(text, start);
  const eol = lineEnd(text);
  if (!startsLine(text, start)) {
    // Several statements on a line of a block over several lines: parted by commas, so is this.
    return where === 'before'
      ? { start, end: start, text: `${lines.join(', ')}, ` }
      : { start: end, end, text: `, ${lines.join(', ')}` };
  }
  if (where === 'before') return { start, end: start, text: lines.map((line) => line + eol + indent).join('') };
  const after = endOfLine(text, end);
  return { start: after, end: after, text: lines.map((line) => eol + indent + line).join('') };
}

function appendTo(file: SourceFile, located: Located, lines: readonly string[]): Change {
  const { text } = file;
  const { statement, start } = located;
  const { body } = statement;
  const eol = lineEnd(text);
  const indent = indentAt(text, start + statement.head.start);
  const block = (given: readonly string[]) => given.map((line) => eol + indent + STEP + line).join('');
  if (!body) {
    const end = start + statement.head.end;
    return { start: end, end, text: ` {${block(lines)}${eol}${indent}}` };
  }
  const last = body.items.at(-1);
  const lastEnd = last && start + (body.offsets[body.items.length - 1] as number) + last.length;
  if (onOneLine(text, located)) {
    if (!COMMAS.has(body.container)) return spread(file, located, body.items.length, lines);
    const from = lastEnd ?? start + body.open + 1;
    const to = start + (body.close ?? body.open + 1);
    return { start: from, end: to, text: `${last ? ', ' : ' '}${lines.join(', ')} ` };
  }
  if (lastEnd !== undefined) {
    const inner = indentAt(text, start + (body.offsets[body.items.length - 1] as number));
    const after = endOfLine(text, lastEnd);
    return { start: after, end: after, text: lines.map((line) => eol + inner + line).join('') };
  }
  // Nothing but comments, or nothing: before the line of the closing brace.
  if (body.close === undefined) {
    const end = endOfLine(text, start + body.open + 1);
    return { start: end, end, text: block(lines) };
  }
  const close = start + body.close;
  const lineStart = startOfLine(text, close);
  return { start: lineStart, end: lineStart, text: lines.map((line) => indent + STEP + line + eol).join('') };
}

/** A block on one line, opened up over several with new lines at a position. */
function spread(file: SourceFile, { statement, start }: Located, position: number, lines: readonly string[]): Change {
  const { text } = file;
  const body = statement.body as Body;
  const eol = lineEnd(text);
  const indent = indentAt(text, start + statement.head.start);
  const items = body.items.map((item, i) => {
    const from = start + (body.offsets[i] as number);
    return text.slice(from, from + item.length);
  });
  items.splice(position, 0, ...lines);
  const open = start + body.open;
  const close = start + (body.close ?? body.open);
  const inner = items.map((line) => eol + indent + STEP + line).join('');
  return { start: open, end: close + 1, text: `{${inner}${eol}${indent}}` };
}

function remove(file: SourceFile, { statement, start, parent }: Located): Change {
  const { text } = file;
  const end = start + statement.length;
  const lineStart = startOfLine(text, start);
  const lineStop = endOfLine(text, end);
  const alone = startsLine(text, start) && /^[ \t]*(,[ \t]*)?(\/\/.*)?$/.test(text.slice(end, lineStop));
  if (alone) return { start: lineStart, end: afterLineEnd(text, lineStop), text: '' };
  const items = parent?.statement.body?.items ?? file.tree.body.items;
  const offsets = parent?.statement.body?.offsets ?? file.tree.body.offsets;
  const base = parent?.start ?? 0;
  const at = items.findIndex((item) => item.id === statement.id);
  const next = offsets[at + 1];
  // The item and the comma behind it; of the last one, the comma before it.
  if (next !== undefined && !text.slice(end, base + next).includes('\n')) return { start, end: base + next, text: '' };
  const before = items[at - 1];
  if (before) return { start: base + (offsets[at - 1] as number) + before.length, end, text: '' };
  return { start, end, text: '' };
}

function addUse(file: SourceFile, path: string): Change | 'nothing to do' {
  const { text, tree } = file;
  const eol = lineEnd(text);
  const uses = tree.body.items.flatMap((item, i) =>
    item.type === 'use' ? [{ item, start: tree.body.offsets[i] as number }] : [],
  );
  if (uses.some(({ item }) => item.path?.text === path)) return 'nothing to do';
  const last = uses.at(-1);
  if (last) {
    const end = endOfLine(text, last.start + last.item.length);
    return { start: end, end, text: `${eol}use ${path}` };
  }
  // Below the remarks the file begins with; `///` belongs to what follows it.
  const head = /^(?:[ \t]*(?:\/\/(?!\/).*)?(?:\r?\n|$))*/.exec(text)?.[0].length ?? 0;
  const before = text.slice(0, head);
  const gap = before === '' || /(?:^|\n)[ \t]*\r?\n$/.test(before) ? '' : eol;
  return { start: head, end: head, text: `${gap}use ${path}${eol}${head < text.length ? eol : ''}` };
}

/** Insertions at one place become one, in their order; the rest is sorted by where it stands. */
function joined(all: readonly Replacement[]): readonly Replacement[] | undefined {
  const sorted = all
    .map((change, order) => ({ change, order }))
    .sort((a, b) => (a.change.file === b.change.file ? a.change.start - b.change.start || a.order - b.order : 0))
    .map(({ change }) => change);
  const result: Replacement[] = [];
  for (const change of sorted) {
    const last = result.at(-1);
    if (last?.file !== change.file) result.push(change);
    else if (last.start === change.start && last.end === last.start && change.end === change.start)
      result[result.length - 1] = { ...last, text: last.text + change.text };
    else if (last.end > change.start) return undefined;
    else result.push(change);
  }
  return result;
}

function onOneLine(text: string, { statement, start }: Located): boolean {
  const { body } = statement as Statement;
  return body?.close !== undefined && !text.slice(start + body.open, start + body.close).includes('\n');
}

function lineEnd(text: string): string {
  return /\r?\n/.exec(text)?.[0] ?? '\n';
}

function startOfLine(text: string, offset: number): number {
  return text.lastIndexOf('\n', offset - 1) + 1;
}

/** Where the line that has the offset ends, its line end not counted. */
function endOfLine(text: string, offset: number): number {
  const at = text.indexOf('\n', offset);
  if (at < 0) return text.length;
  return at > offset && text[at - 1] === '\r' ? at - 1 : at;
}

function afterLineEnd(text: string, offset: number): number {
  if (text[offset] === '\r') return offset + 2;
  return Math.min(offset + 1, text.length);
}

function startsLine(text: string, offset: number): boolean {
  return text.slice(startOfLine(text, offset), offset).trim() === '';
}

function indentAt(text: string, offset: number): string {
  return /^[ \t]*/.exec(text.slice(startOfLine(text, offset), offset))?.[0] ?? '';
}
