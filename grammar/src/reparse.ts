/**
 * A changed file, read where it changed. The lines that the change touches and a neighbour on either side are read again
 * as a text of their own, in the innermost block that holds them; where that can not be shown to give what reading the
 * whole file gives, the next block out is tried, and in the end the whole file.
 */
import type { IToken } from 'chevrotain';
import { adopt } from './adopt.ts';
import { mayGoOn } from './continuation.ts';
import { partedByCommas } from './forms.ts';
import { layout } from './layout.ts';
import { copyOf, type Lexed, lex, unpaired } from './lex.ts';
import { indentAt, parse, parseUneven } from './parse.ts';
import type { Draft } from './parser/base.ts';
import { type Owner, Reader } from './read.ts';
import { readLine } from './reparse-line.ts';
import { type Change, type Level, levelsAround, lineIsFree, type Region, readsItsBlock, splice } from './splice.ts';
import { DocComment, LCurly, MergeMarker, RCurly, UnclosedText } from './tokens.ts';
import type { Body, Statement, SyntaxTree } from './tree.ts';
import { lastStarting } from './walk.ts';

/**
 * The tree of `text`, as `parse(text)` gives it but for ids. Statements that the change leaves alone are the same objects;
 * one read anew in place of an old one of its sort keeps its id.
 * @param text the text after the change
 */
export function reparse(tree: SyntaxTree, text: string, change: Change): SyntaxTree {
  const delta = change.newEnd - change.oldEnd;
  const fits =
    change.start >= 0 && change.start <= change.oldEnd && change.start <= change.newEnd && change.oldEnd <= tree.length;
  if (!fits || text.length !== tree.length + delta) return readWhole(tree, text);
  const line = readLine(tree, text, change);
  if (line !== undefined) return line;
  if (tree.sound) {
    const levels = levelsAround(tree, change);
    for (let depth = levels.length - 1; depth >= 0; depth--) {
      for (const further of [0, 1, 3]) {
        const region = readRegion(tree, text, change, levels, depth, further);
        if (region === 'whole file') return readWhole(tree, text);
        if (region !== undefined) return splice(tree, levels, depth, region, change);
      }
    }
  }
  return readWhole(tree, text);
}

function readWhole(tree: SyntaxTree, text: string): SyntaxTree {
  const fresh = tree.sound ? parse(text, tree.nextId) : parseUneven(text, tree.nextId);
  return { ...fresh, body: { ...fresh.body, items: adopt(tree.body.items, fresh.body.items) } };
}

/**
 * @param further how many untouched items more than one are read on the right
 * @returns undefined when the region can not be told apart from what surrounds it
 */
function readRegion(
  tree: SyntaxTree,
  text: string,
  change: Change,
  levels: readonly Level[],
  depth: number,
  further: number,
): Region | 'whole file' | undefined {
  const level = levels[depth];
  if (level === undefined) return undefined;
  const { body, start } = level;
  const delta = change.newEnd - change.oldEnd;
  const { low, high } = touched(level, change);

  // On the left a line without a block may be continued by what follows; one with a block is complete.
  const left = body.items[low - 1];
  const from = left !== undefined && left.body === undefined ? low - 1 : low;
  const startAt =
    from < low
      ? start + (body.offsets[from] ?? 0)
      : left !== undefined
        ? start + (body.offsets[low - 1] ?? 0) + left.length
        : start + body.open + 1;

  // On the right the region ends with a head whose block is left as it is, with a whole line, or with the block.
  const last = body.items[high];
  const lastStart = start + (body.offsets[high] ?? 0);
  let anchorAt =
    high >= low && last?.body !== undefined && change.oldEnd <= lastStart + last.body.open ? high : high + 1;
  if (further > 0) anchorAt = Math.min(high + 1 + further, Math.max(anchorAt, body.items.length));
  const anchor = body.items[anchorAt];
  const anchorStart = start + (body.offsets[anchorAt] ?? 0);
  const to = anchor === undefined ? body.items.length : anchorAt + 1;
  const shell =
    anchor?.body !== undefined && anchor.type !== 'entry' && anchor.type !== 'unreadable' ? anchor.body : undefined;
  const endAt =
    delta +
    (anchor === undefined
      ? body.close === undefined
        ? tree.length
        : start + body.close
      : shell !== undefined
        ? anchorStart + shell.open + 1
        : anchorStart + anchor.length);
  const inFile = anchor === undefined && body.close === undefined;

  const characters = copyOf(text.slice(startAt, endAt));
  const lexed = lex(characters);
  const brace = lexed.tokens.at(-1);
  if (shell !== undefined) {
    if (brace?.tokenType !== LCurly || brace.startOffset !== characters.length - 1) return undefined;
    if (lexed.tokens.at(-2)?.tokenType === UnclosedText) return undefined;
    lexed.tokens.push({
      image: '}',
      startOffset: characters.length,
      tokenType: RCurly,
      tokenTypeIdx: RCurly.tokenTypeIdx ?? 0,
    });
  }
  const uneven = unpaired(lexed.tokens);
  if (uneven.opens + uneven.closes > 0) return 'whole file';
  const first = lexed.tokens[0];
  if (first?.tokenType === MergeMarker && startAt > 0 && !isLineEnd(text, startAt - 1)) return undefined;
  if (!inFile && (runsOn(lexed, characters.length) || !lineIsFree(text, endAt))) return undefined;

  const reader = new Reader(characters, tree.nextId);
  const owner: Owner = {
    statement: undefined,
    start: start - startAt,
    container: body.container,
    open: -1,
    braced: true,
    items: [],
    offsets: [],
  };
  layout(lexed, { owner, container: body.container, depth, indent: indentAt(text, startAt) }, reader);
  if (reader.tooDeep || reader.strays.length > 0) return 'whole file';
  const { items, offsets } = owner;

  if (anchor !== undefined) {
    const end = items.at(-1);
    if (end === undefined) return undefined;
    if (shell !== undefined) {
      const carried = carry(end, anchor, shell);
      if (carried === undefined) return undefined;
      items[items.length - 1] = carried;
    } else {
      const offset = offsets.at(-1) ?? 0;
      if (start + offset + end.length !== endAt) return undefined;
      if (end.body === undefined && mayGoOn(brace)) return undefined;
      const listed = partedByCommas(body.container) && start + offset !== anchorStart + delta;
      if (listed) return undefined;
    }
  }
  return { from, to, items: adopt(body.items.slice(from, to), items), offsets, nextId: reader.nextId };
}

/** The items the change touches: `[low, high]`; none when `low` is above `high`. A block that is closed ends sharply. */
function touched({ body, start }: Level, change: Change): { low: number; high: number } {
  const reaches = (index: number): boolean => {
    const item = body.items[index];
    if (item === undefined) return false;
    const end = start + (body.offsets[index] ?? 0) + item.length;
    return end > change.start || (end === change.start && item.body === undefined);
  };
  let low = lastStarting(body.offsets, change.start - start) + 1;
  while (reaches(low - 1)) low--;
  return { low, high: lastStarting(body.offsets, change.oldEnd - start) };
}

/** The statement with its old block instead of the empty one; undefined when the block might be read otherwise now. */
function carry(statement: Statement, anchor: Statement, block: Body): Statement | undefined {
  const { body } = statement;
  if (body === undefined || body.container !== block.container || readsItsBlock(statement)) return undefined;
  const shift = body.open - block.open;
  const moved: Body =
    shift === 0
      ? block
      : {
          ...block,
          open: body.open,
          close: block.close === undefined ? undefined : block.close + shift,
          offsets: block.offsets.map((offset) => offset + shift),
        };
  const carried: Draft<Statement> = { ...statement, body: moved, length: anchor.length + shift };
  return carried;
}

/** Whether the last words of the region would take in what follows on their line. */
function runsOn(lexed: Lexed, end: number): boolean {
  const openEnded = (token: IToken | undefined): boolean =>
    token !== undefined && token.startOffset + token.image.length >= end;
  const last = lexed.tokens.at(-1);
  if (openEnded(lexed.comments.at(-1))) return true;
  const swallows =
    last?.tokenType === UnclosedText || last?.tokenType === DocComment || last?.tokenType === MergeMarker;
  return swallows && openEnded(last);
}

function isLineEnd(text: string, at: number): boolean {
  const sign = text.charAt(at);
  return sign === '\n' || sign === '\r';
}
