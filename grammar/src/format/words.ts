/** The words of a head: what they are written as, where spaces stand between them, and where the line may break. */
import type { IToken, TokenType } from 'chevrotain';
import { leadsOn } from '../continuation.ts';
import { partedByCommas } from '../forms.ts';
import { tokenTable } from '../token-table.ts';
import {
  AdditiveSign,
  AllergicTo,
  And,
  AnyText,
  Arrow,
  At,
  AtHome,
  AtLeast,
  AtMost,
  Because,
  By,
  Colon,
  Comma,
  ComparisonSign,
  Dot,
  DotDot,
  LParen,
  MultiplyingSign,
  NumberWord,
  Or,
  Otherwise,
  Preposition,
  RParen,
  SizeBy,
  SourceWord,
  Takes,
  To,
  Where,
} from '../tokens.ts';
import type { Container, Expr, Statement } from '../tree.ts';
import type { Comment, Word } from './lines.ts';
import { unitLength } from './units.ts';

/** A word as it was read, with the comments before it. */
export interface ReadWord {
  readonly token: IToken;
  readonly comments: readonly Comment[];
}

/**
 * @param start where the statement starts in the text
 * @param container the block it stands in
 */
export function wordsOf(
  read: readonly ReadWord[],
  statement: Statement,
  start: number,
  container: Container,
  spell: (unit: string) => string,
): Word[] {
  const { type } = statement;
  const words: Word[] = [];
  const calls = read.some(({ token }) => token.tokenType === LParen) ? callsIn(statement, start) : noCalls;
  let depth = 0;
  for (let at = 0; at < read.length; at++) {
    const { token, comments } = read[at] as ReadWord;
    const previous = read[at - 1]?.token;
    if (token.tokenType === RParen) depth--;
    const length = previous?.tokenType === NumberWord ? unitLength(read, at) : 0;
    const spaced =
      previous !== undefined && type !== 'use' ? parts(previous, token, at, calls) : previous !== undefined && at === 1;
    words.push({
      text: length > 0 ? spell(unitText(read, at, length)) : written(token),
      spaced,
      breaks: spaced && previous !== undefined ? breaksBefore(previous, token, type, container, depth) : 0,
      parted: previous !== undefined && changesWhenJoined(previous, token, read[at + 1]?.token),
      comments,
    });
    if (length > 1) at += length - 1;
    if (token.tokenType === LParen) depth++;
  }
  return words;
}

function unitText(read: readonly ReadWord[], at: number, length: number): string {
  return read
    .slice(at, at + length)
    .map(({ token }) => token.image)
    .join('');
}

/** Two words that are read as one may have been written apart. */
function written({ tokenType, image }: IToken): string {
  const several = tokenType === AtLeast || tokenType === AtMost || tokenType === AtHome || tokenType === AllergicTo;
  return several ? image.replace(/\s+/g, ' ') : image;
}

/** Whether a space parts them. */
function parts(previous: IToken, token: IToken, at: number, calls: ReadonlySet<number>): boolean {
  const before = spacing[previous.tokenTypeIdx];
  if (before === TIGHT || before === OPENING) return false;
  switch (spacing[token.tokenTypeIdx]) {
    case TIGHT:
    case CLOSING:
      return false;
    case OPENING:
      return !calls.has(previous.startOffset + previous.image.length);
    case COLON:
      return at === 1;
    default:
      // A ratio: `1:1000`. Behind the name of a property the colon stands free.
      return before !== COLON || at === 2;
  }
}

function breaksBefore(
  previous: IToken,
  token: IToken,
  type: Statement['type'],
  container: Container,
  depth: number,
): Word['breaks'] {
  if (previous.tokenType === Comma) return depth > 0 ? 1 : goesOnBehindComma(container, token) ? 2 : 0;
  if (!leadsOn(container, token)) return 0;
  const breaks = (ranks[token.tokenTypeIdx] ?? 0) as Word['breaks'];
  if ((token.tokenType === And || token.tokenType === Or) && ofSteps.has(type)) return 4;
  return depth > 0 && breaks > 1 ? 1 : breaks;
}

/** Lines in which `and` and `or` stand between one step and the next. */
const ofSteps: ReadonlySet<Statement['type']> = new Set<Statement['type']>(['between', 'order', 'count', 'pause rule']);

/** In a list parted by commas only a number or a text goes on in the line below. */
function goesOnBehindComma(container: Container, next: IToken): boolean {
  return !partedByCommas(container) || next.tokenType === NumberWord || isA(next, AnyText);
}

/** `"x"` and, a line below, `at home` are a text and a place; `allergic` and, a line below, `to b` a thing and a direction. */
function changesWhenJoined(previous: IToken, token: IToken, next: IToken | undefined): boolean {
  if (token.tokenType === At) return isA(previous, AnyText) && next?.image === 'home';
  return token.tokenType === To && previous.image === 'allergic';
}

/** Where the names end that are followed by what they are asked of: `min(a, b)`. */
function callsIn(part: unknown, start: number, found: Set<number> = new Set()): ReadonlySet<number> {
  if (typeof part !== 'object' || part === null) return found;
  for (const [key, value] of Object.entries(part)) if (key !== 'body') callsIn(value, start, found);
  if ('type' in part && part.type === 'call') found.add(start + (part as Extract<Expr, { type: 'call' }>).name.end);
  return found;
}

const noCalls: ReadonlySet<number> = new Set();

const TIGHT = 1;
const OPENING = 2;
const CLOSING = 3;
const COLON = 4;

const spacing = tokenTable([
  [Dot, TIGHT],
  [DotDot, TIGHT],
  [LParen, OPENING],
  [RParen, CLOSING],
  [Comma, CLOSING],
  [Colon, COLON],
]);

const ranks = tokenTable([
  ...[Because, Where, Otherwise, Takes, By, SourceWord].map((type): [TokenType, number] => [type, 4]),
  [Preposition, 3],
  ...[And, Or].map((type): [TokenType, number] => [type, 2]),
  ...[Arrow, ComparisonSign, AdditiveSign, MultiplyingSign].map((type): [TokenType, number] => [type, 1]),
  [SizeBy, 0],
]);

function isA(token: IToken | undefined, category: TokenType): boolean {
  return token !== undefined && category.categoryMatchesMap?.[token.tokenTypeIdx] === true;
}
