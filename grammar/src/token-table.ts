/** Tables by kind of token: what is asked of every word is looked up. */
import type { TokenType } from 'chevrotain';
import { Comma, DocComment, LCurly, MergeMarker, Newline, RCurly, Semicolon, tokenTypes } from './tokens.ts';

const size = Math.max(...tokenTypes.map((type) => type.tokenTypeIdx ?? 0)) + 1;

/** Indexed by `tokenTypeIdx`; a category stands for all in it, later entries count, 0 for the rest. */
export function tokenTable(entries: readonly (readonly [TokenType, number])[]): Uint8Array {
  const values = new Uint8Array(size);
  for (const [type, value] of entries) {
    for (const index of [type.tokenTypeIdx, ...(type.categoryMatches ?? [])]) {
      if (index !== undefined) values[index] = value;
    }
  }
  return values;
}

// What a token does to the layout; `PLAIN` for a word of a head.
export const PLAIN = 0;
export const END_OF_LINE = 1;
export const DOC = 2;
export const OPEN = 3;
export const CLOSE = 4;
export const COMMA = 5;
export const SEMICOLON = 6;
export const MERGE = 7;

export const layoutKinds = tokenTable([
  [Newline, END_OF_LINE],
  [DocComment, DOC],
  [LCurly, OPEN],
  [RCurly, CLOSE],
  [Comma, COMMA],
  [Semicolon, SEMICOLON],
  [MergeMarker, MERGE],
]);
