/**
 * A change inside one line, past its first word: what lines and blocks there are stays as it is, whatever state the rest of
 * the file is in. The commonest change by far, and the only one read alone while braces do not pair.
 */
import { mayGoOn } from './continuation.ts';
import { layout } from './layout.ts';
import { copyOf, lex } from './lex.ts';
import { indentAt } from './parse.ts';
import type { Draft } from './parser/base.ts';
import { type Owner, Reader } from './read.ts';
import { type Change, type Level, lineIsFree, type Region, splice } from './splice.ts';
import { layoutKinds, PLAIN } from './token-table.ts';
import { Comma, UnclosedText } from './tokens.ts';
import type { Statement, SyntaxTree } from './tree.ts';
import { lastStarting } from './walk.ts';

/** @returns undefined when the change may be more than that */
export function readLine(tree: SyntaxTree, text: string, change: Change): SyntaxTree | undefined {
  const found = lineAround(tree, text, change);
  if (found === undefined) return undefined;
  const { levels, statement, index, start } = found;
  const level = levels.at(-1);
  if (level === undefined) return undefined;
  const delta = change.newEnd - change.oldEnd;
  const end = Math.max(start + statement.length + delta, change.newEnd);
  const characters = copyOf(text.slice(start, end));
  const { tokens, comments } = lex(characters);
  const first = tokens.findIndex(({ startOffset }) => startOffset >= statement.head.start);
  const word = tokens[first];
  const last = tokens.at(-1);
  if (word === undefined || last === undefined || tokens.length < first + 2) return undefined;
  if (start + word.startOffset + word.image.length >= change.start) return undefined;
  // Only words of a head: nothing that opens, closes, parts or runs past the line.
  for (const { tokenTypeIdx, tokenType } of tokens.slice(first)) {
    if (layoutKinds[tokenTypeIdx] !== PLAIN && tokenType !== Comma) return undefined;
    if (tokenType === UnclosedText) return undefined;
  }
  if (comments.length > 0 || mayGoOn(last) || !lineIsFree(text, end) || commaFollows(text, end)) return undefined;

  const reader = new Reader(characters, tree.nextId);
  const owner: Owner = {
    statement: undefined,
    start: level.start - start,
    container: level.body.container,
    open: -1,
    braced: true,
    items: [],
    offsets: [],
  };
  const place = { owner, container: level.body.container, depth: levels.length - 1, indent: indentAt(text, start) };
  const [fresh, more] = layout({ tokens, more: () => false }, place, reader) ? owner.items : [];
  if (fresh === undefined || more !== undefined || fresh.type !== statement.type) return undefined;
  if (owner.offsets[0] !== level.body.offsets[index]) return undefined;
  const kept: Draft<Statement> = { ...fresh, id: statement.id };
  const region: Region = { from: index, to: index + 1, items: [kept], offsets: owner.offsets, nextId: reader.nextId };
  return splice(tree, levels, levels.length - 1, region, change);
}

/** The line that holds the change, or ends before it with nothing but blanks between; and the blocks around it. */
function lineAround(tree: SyntaxTree, text: string, change: Change) {
  const levels: Level[] = [{ body: tree.body, owner: undefined, start: 0, index: 0 }];
  let { body } = tree;
  let from = 0;
  for (;;) {
    const index = lastStarting(body.offsets, change.start - from);
    const statement = body.items[index];
    if (statement === undefined) return undefined;
    const start = from + (body.offsets[index] ?? 0);
    if (statement.body === undefined) {
      // A merge marker is told by its first seven signs, and runs to the end of its line.
      if (statement.flaws.some(({ code }) => code === 'merge_marker')) return undefined;
      const end = start + statement.length;
      const inside = change.oldEnd <= end || (change.start >= end && change.oldEnd === change.start);
      if (!inside || !isBlank(text, end, change.start)) return undefined;
      return { levels, statement, index, start };
    }
    if (change.start <= start + statement.body.open || toldByItsBlock(statement)) return undefined;
    if (statement.body.close !== undefined && change.oldEnd > start + statement.body.close) return undefined;
    levels.push({ body: statement.body, owner: statement, start, index });
    body = statement.body;
    from = start;
  }
}

/** Whether what a statement is may hang on the words in its block: see `recognise`. */
function toldByItsBlock({ type, flaws }: Statement): boolean {
  return (
    type === 'entry' ||
    type === 'unreadable' ||
    flaws.some(({ code }) => code !== 'unclosed_block' && code !== 'too_deep')
  );
}

/** Whether the value before a comma ends there hangs on the value. */
function commaFollows(text: string, from: number): boolean {
  let at = from;
  while (text.charAt(at) === ' ' || text.charAt(at) === '\t') at++;
  return text.charAt(at) === ',';
}

function isBlank(text: string, from: number, to: number): boolean {
  for (let at = from; at < to; at++) if (text.charAt(at) !== ' ' && text.charAt(at) !== '\t') return false;
  return true;
}
