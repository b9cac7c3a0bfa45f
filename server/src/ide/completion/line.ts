import { type Container, lastStarting, type Placed, type Statement, words as wordList } from '@curette/grammar';
import type { SourceFile } from '../../analysis/snapshot.ts';

/** A word of the line that is being written. */
export interface Word {
  readonly text: string;
  readonly sort: 'name' | 'number' | 'text' | 'sign';
}

/** The line that the cursor is in, as far as the cursor. */
export interface Line {
  readonly container: Container;
  /** the statements whose block this is, outermost first */
  readonly owners: readonly Placed[];
  /** the other lines of the block */
  readonly others: readonly Statement[];
  /** how many lines of the block stand before this one */
  readonly position: number;
  /** the line as it was read, what stands behind the cursor included; undefined for an empty one */
  readonly statement: Statement | undefined;
  /** whole words before the one that is being typed */
  readonly words: readonly Word[];
  readonly typed: string;
  /** where the typed word starts, in the file */
  readonly start: number;
  /** what is typed stands right behind this path and its dot: `socket.` */
  readonly path: string | undefined;
}

/** Where a comma ends a line as a line end does. */
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

/** Undefined in remarks and in quoted texts, where nothing is to be completed. */
export function lineAt(file: SourceFile, offset: number): Line | undefined {
  const { text } = file;
  const owners: Placed[] = [];
  let body = file.tree.body;
  let base = 0;
  let statement: Statement | undefined;
  let from: number;
  let position: number;
  for (;;) {
    const at = lastStarting(body.offsets, offset - base);
    const item = body.items[at];
    const start = base + (body.offsets[at] ?? 0);
    const inside = item?.body;
    const opens = item && inside ? openingOf(text, item, start) : Number.POSITIVE_INFINITY;
    if (item && inside && offset > opens && (inside.close === undefined || offset <= start + inside.close)) {
      owners.push({ statement: item, start });
      body = inside;
      base = start;
      continue;
    }
    position = at + 1;
    from = lineStart(text, offset, COMMAS.has(body.container));
    if (item && !(inside && offset > opens)) {
      const end = start + item.head.end;
      const behind = text.slice(Math.min(end, offset), offset);
      const goesOn = COMMAS.has(body.container) ? /^[ \t]*$/ : /^[^\n\r]*$/;
      if (offset >= start + item.head.start && goesOn.test(behind)) {
        statement = item;
        position = at;
        from = start + item.head.start;
      }
    }
    break;
  }
  const before = text.slice(from, offset);
  if (insideRemark(text, offset)) return undefined;
  const words = wordsOf(before);
  if (words === undefined) return undefined;
  const typed = typedAt(before, words);
  if (typed !== '') while (words.at(-1) && before.length - typed.length < (words.at(-1)?.end ?? 0)) words.pop();
  const path = /([\p{L}_][\p{L}\d_.]*)\.$/u.exec(before.slice(0, before.length - typed.length))?.[1];
  return {
    container: body.container,
    owners,
    others: body.items.filter((item) => item !== statement),
    position,
    statement,
    words,
    typed,
    start: offset - typed.length,
    path,
  };
}

/** Where a statement's block begins; where its brace is missing, that is behind the line of its head. */
function openingOf(text: string, statement: Statement, start: number): number {
  const open = start + (statement.body?.open ?? 0);
  if (text[open] === '{') return open;
  const end = text.indexOf('\n', start + statement.head.end);
  return end < 0 ? text.length : end;
}

export const PREPOSITIONS: ReadonlySet<string> = new Set(wordList.prepositions);

function lineStart(text: string, offset: number, commas: boolean): number {
  for (let at = offset - 1; at >= 0; at--) {
    const sign = text[at];
    if (sign === '\n' || sign === '{' || sign === '}' || (commas && sign === ',')) return at + 1;
  }
  return 0;
}

function insideRemark(text: string, offset: number): boolean {
  const line = text.slice(text.lastIndexOf('\n', offset - 1) + 1, offset);
  return /^(?:[^"/]|"(?:[^"\\]|\\.)*"|\/(?!\/))*\/\//.test(line);
}

type Placing = Word & { readonly end: number };

/** Undefined when the last one is a text whose closing mark is not there yet. */
function wordsOf(before: string): Placing[] | undefined {
  const words: Placing[] = [];
  const signs = /"(?:[^"\\\n]|\\.)*("?)|\d+(?:\.\d+)?|[\p{L}_][\p{L}\d_]*|\.\.|->|[<>]=?|\S/gu;
  for (const match of before.matchAll(signs)) {
    const [text] = match;
    const end = match.index + text.length;
    if (text.startsWith('"')) {
      if (match[1] !== '"') return undefined;
      words.push({ text, sort: 'text', end });
    } else if (/^\d/.test(text)) words.push({ text, sort: 'number', end });
    else if (/^[\p{L}_]/u.test(text)) words.push({ text, sort: 'name', end });
    else words.push({ text, sort: 'sign', end });
  }
  return words;
}

/** The unfinished word before the cursor: a name, or behind a number a unit with all its signs. */
function typedAt(before: string, words: readonly Placing[]): string {
  const unit = /\d\s*((?:[\p{L}%µ°[/][^\s"{},;()]*)?)$/u.exec(before)?.[1];
  if (unit !== undefined && !unit.includes('..') && words.some(({ sort }) => sort === 'number')) return unit;
  return /[\p{L}_][\p{L}\d_]*$/u.exec(before)?.[0] ?? '';
}
