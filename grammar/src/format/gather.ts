/** From a text and its tree to lines and blocks: gives every comment its place, and keeps what of the white space has a meaning. */
import type { IToken } from 'chevrotain';
import { partedByCommas } from '../forms.ts';
import { lex } from '../lex.ts';
import { DocComment, Newline, RCurly } from '../tokens.ts';
import type { Body, Container, Statement, SyntaxTree } from '../tree.ts';
import { keyLength } from './columns.ts';
import type { Block, Comment, CommentLine, Line, StatementLine } from './lines.ts';
import { type ReadWord, wordsOf } from './words.ts';

/** @param tree of the text; nothing in it is flawed */
export function gather(text: string, tree: SyntaxTree, spell: (unit: string) => string): Block {
  const reader: Reader = { text, signs: signsOf(text), at: 0, end: 0, spell };
  return block(reader, tree.body, 0);
}

/** A word, a sign or a comment. */
interface Sign {
  readonly start: number;
  readonly end: number;
  readonly token: IToken;
  readonly comment: boolean;
}

interface Reader {
  readonly text: string;
  readonly signs: readonly Sign[];
  /** the next sign */
  at: number;
  /** where the last one ends */
  end: number;
  readonly spell: (unit: string) => string;
}

function signsOf(text: string): Sign[] {
  const { tokens, comments } = lex(text);
  const signs: Sign[] = [];
  let next = 0;
  const add = (token: IToken, comment: boolean): void => {
    const start = token.startOffset;
    signs.push({ start, end: start + token.image.length, token, comment });
  };
  for (const token of tokens) {
    if (token.tokenType === Newline) continue;
    for (let comment = comments[next]; comment !== undefined && comment.startOffset < token.startOffset; ) {
      add(comment, true);
      comment = comments[++next];
    }
    add(token, token.tokenType === DocComment);
  }
  for (const comment of comments.slice(next)) add(comment, true);
  return signs;
}

/** A block whose `{` has been read, up to its `}`; or a whole file. */
function block(reader: Reader, body: Body, start: number): Block {
  const { container } = body;
  const opened = reader.end;
  const lines: Line[] = [];
  const opening = body.open < 0 ? undefined : commentOnLine(reader, 'line comment');
  let last: StatementLine | undefined;
  let lastEnd = -1;
  for (const [index, item] of body.items.entries()) {
    const from = start + (body.offsets[index] ?? 0);
    const head = from + item.head.start;
    const blank = above(reader, head, lines, from);
    const joined = last !== undefined && last.trailing === undefined && lineEnds(reader, lastEnd, head) === 0;
    const read = statement(reader, item, from, container, blank, joined);
    lastEnd = reader.end;
    const trailing = commentOnLine(reader, read.block === undefined ? 'any comment' : 'line comment');
    last = trailing === undefined ? read : { ...read, trailing };
    lines.push(last);
  }
  const close = body.close === undefined ? reader.text.length : start + body.close;
  above(reader, close, lines, close);
  return {
    container,
    lines,
    opening,
    inline: opening === undefined && mayBeInline(reader, container, lines, opened, close),
  };
}

function statement(
  reader: Reader,
  item: Statement,
  start: number,
  container: Container,
  blank: boolean,
  joined: boolean,
): StatementLine {
  const read: ReadWord[] = [];
  let comments: Comment[] = [];
  const headEnd = start + item.head.end;
  for (let sign = reader.signs[reader.at]; sign !== undefined && sign.start < headEnd; sign = reader.signs[reader.at]) {
    if (sign.comment) comments.push(commentOf(reader, sign));
    else {
      read.push({ token: sign.token, comments });
      comments = [];
    }
    pass(reader, sign);
  }
  const line: StatementLine = {
    type: 'statement',
    words: wordsOf(read, item, start, container, reader.spell),
    key: keyLength(item, container),
    blank,
    joined,
    block: undefined,
    beforeBlock: [],
    trailing: undefined,
  };
  if (item.body === undefined) return line;
  const before: Comment[] = [];
  const open = start + item.body.open;
  for (let sign = reader.signs[reader.at]; sign !== undefined && sign.start <= open; sign = reader.signs[reader.at]) {
    if (sign.comment) before.push(commentOf(reader, sign));
    pass(reader, sign);
  }
  const inside = block(reader, item.body, start);
  const close = reader.signs[reader.at];
  if (close?.token.tokenType === RCurly) pass(reader, close);
  // In the block a `///` would belong to its first line.
  if (before.some(({ text }) => text.startsWith('///') && !text.startsWith('////')))
    return { ...line, beforeBlock: before, block: { ...inside, inline: false } };
  return { ...line, block: withComments(before, inside) };
}

/** Comments that stood before `{`, behind it. */
function withComments(before: readonly Comment[], inside: Block): Block {
  const texts = before.map(({ text }) => text);
  const [opening, ...below] = inside.opening === undefined ? texts : [...texts, inside.opening];
  if (opening === undefined || before.length === 0) return inside;
  const moved = below.map((text): CommentLine => ({ type: 'comment', text, blank: false }));
  return { ...inside, lines: [...moved, ...inside.lines], opening, inline: false };
}

/**
 * Reads what stands above a statement: comments, its `///` lines, commas.
 * @param doc from here on comments belong to the statement, and no blank line parts them
 * @returns whether a blank line stands directly above the statement
 */
function above(reader: Reader, end: number, lines: Line[], doc: number): boolean {
  let blank = false;
  let bound = false;
  for (let sign = reader.signs[reader.at]; ; sign = reader.signs[reader.at]) {
    const next = sign === undefined || sign.start >= end ? undefined : sign;
    if (lineEnds(reader, reader.end, next?.start ?? end) > 1) blank = true;
    if (next === undefined) break;
    pass(reader, next);
    if (!next.comment) continue;
    lines.push({ type: 'comment', text: commentText(next.token), blank: blank && !bound });
    bound = next.start >= doc;
    blank = false;
  }
  return blank && !bound;
}

/** A comment that stands on the line of what was read last; a `///` there may belong to what follows. */
function commentOnLine(reader: Reader, sort: 'line comment' | 'any comment'): string | undefined {
  const sign = reader.signs[reader.at];
  if (sign === undefined || !sign.comment) return undefined;
  if (sort === 'line comment' && sign.token.tokenType === DocComment) return undefined;
  if (lineEnds(reader, reader.end, sign.start) > 0) return undefined;
  pass(reader, sign);
  return commentText(sign.token);
}

/** Whether all of a block stands on one line and can be written there. */
function mayBeInline(
  reader: Reader,
  container: Container,
  lines: readonly Line[],
  opened: number,
  close: number,
): boolean {
  if (lines.length === 0) return true;
  if (lineEnds(reader, opened, close) > 0 || (lines.length > 1 && !partedByCommas(container))) return false;
  return lines.every((line) => line.type === 'statement' && (line.block?.inline ?? true));
}

function commentOf(reader: Reader, sign: Sign): Comment {
  return { text: commentText(sign.token), own: lineEnds(reader, reader.end, sign.start) > 0 };
}

/** Without white space at its end; words of a doc comment stand free of its mark. */
function commentText({ tokenType, image }: IToken): string {
  const text = image.trimEnd();
  return tokenType === DocComment ? text.replace(/^\/\/\/(?=\S)/, '/// ') : text;
}

function pass(reader: Reader, sign: Sign): void {
  reader.at++;
  reader.end = sign.end;
}

/** How many line ends there are between two places. */
function lineEnds({ text }: Reader, from: number, to: number): number {
  let count = 0;
  for (let at = from; at < to; at++) {
    const code = text.charCodeAt(at);
    if (code === 10 || (code === 13 && text.charCodeAt(at + 1) !== 10)) count++;
  }
  return count;
}
