/** What a block is, told by what it holds: for heads that can not be read. */
import type { IToken } from 'chevrotain';
import type { TokenSource } from './lex.ts';
import {
  AnyText,
  Because,
  By,
  Colon,
  Comma,
  DocComment,
  LCurly,
  Minus,
  Named,
  Newline,
  NumberWord,
  Preposition,
  RCurly,
  SourceWord,
  Takes,
} from './tokens.ts';
import type { Container } from './tree.ts';

export interface Sniffed {
  /** by a word that stands in one sort of block only */
  readonly sign: Container | undefined;
  /** by the shape of the lines: names alone or with a label, names with a value, or steps */
  readonly shape: 'names' | 'values' | 'steps';
}

/** Looks into the block that follows. */
export type Sniff = () => Sniffed;

/** So many lines and words are looked at. */
const mostLines = 12;
const mostTokens = 400;

/** @param from index of the first token in the block */
export function sniff({ tokens, more }: TokenSource, from: number): Sniffed {
  let depth = 0;
  let lines = 0;
  let start = -1;
  let shape: Sniffed['shape'] | undefined;
  for (let at = from; lines < mostLines && at < from + mostTokens && (at < tokens.length || more()); at++) {
    const type = tokens[at]?.tokenType;
    if (type === DocComment) continue;
    const ends = type === Newline || type === LCurly || type === RCurly || type === Comma;
    if (start < 0 && !ends && depth === 0) {
      start = at;
      lines++;
      if (at + 1 >= tokens.length) more();
      const sign = signOf(tokens[at], tokens[at + 1]);
      if (sign !== undefined) return { sign, shape: 'values' };
    }
    if (start >= 0 && ends) {
      const next = shapeOf(tokens.slice(start, at));
      if (shape === undefined || shapes.indexOf(next) > shapes.indexOf(shape)) shape = next;
      start = -1;
    }
    if (type === LCurly) depth++;
    if (type === RCurly && depth-- === 0) break;
  }
  return { sign: undefined, shape: shape ?? 'steps' };
}

function signOf(first: IToken | undefined, second: IToken | undefined): Container | undefined {
  if (first === undefined) return undefined;
  if (second?.tokenType === Colon) return 'kind';
  if (first.tokenType === By && second !== undefined && isA(second, AnyText)) return 'source';
  return signs.get(first.image);
}

/** A block with one line of a later shape has that shape. */
const shapes: readonly Sniffed['shape'][] = ['names', 'values', 'steps'];

function shapeOf(line: readonly IToken[]): Sniffed['shape'] {
  const [first, second, third] = line;
  if (first === undefined || valueWords.has(first.image)) return 'values';
  const named = isA(first, Named);
  if (named && (second === undefined || (isA(second, AnyText) && third === undefined))) return 'names';
  if (second === undefined || line.some((word) => isA(word, Preposition) || isA(word, Takes) || isA(word, By)))
    return 'steps';
  if (isA(second, NumberWord) || isA(second, Minus) || isA(second, AnyText)) return 'values';
  return third === undefined || isA(third, SourceWord) || isA(third, Because) ? 'values' : 'steps';
}

/** Words that begin a line among values, and no step. */
const valueWords: ReadonlySet<string> = new Set(['by', 'has', 'takes', 'allergic to', 'contraindicated']);

function isA(token: IToken, type: typeof Named): boolean {
  return token.tokenType === type || type.categoryMatchesMap?.[token.tokenTypeIdx] === true;
}

/** Words that stand in one sort of block only. */
const signs: ReadonlyMap<string, Container> = new Map(
  (
    [
      ['protocol', ['visit', 'given', 'team', 'materials', 'instruments', 'exclude', 'caution', 'follows']],
      ['kind', ['states', 'must', 'serves']],
      ['action', ['needs', 'makes', 'uses']],
      ['rule', ['whenever', 'expect', 'between', 'severity']],
      ['pause', ['item']],
      ['options', ['option']],
      ['lanes', ['lane']],
    ] as const
  ).flatMap(([container, words]) => words.map((word): [string, Container] => [word, container])),
);
