/** Words and signs with what sort they are, for colouring and for what works on words rather than lines. */
import type { TokenType } from 'chevrotain';
import { type Lexed, lex } from './lex.ts';
import {
  AnyText,
  AnyWord,
  Content,
  DateWord,
  DocComment,
  Newline,
  NumberWord,
  Preposition,
  Unknown,
  VersionWord,
  Word,
} from './tokens.ts';
import type { Span } from './tree.ts';

export interface Token extends Span {
  /**
   * `name`: a word that is none of the language's; `keyword`: one that may be (a name may be spelled like it);
   * `preposition`; `sign`: an operator, bracket or separator
   */
  readonly kind: 'name' | 'keyword' | 'preposition' | 'number' | 'text' | 'comment' | 'doc' | 'sign' | 'strange';
}

/** Every word and sign in order, comments included; line ends and spaces are left out. */
export function tokenize(text: string): Token[] {
  const lexed: Lexed = lex(text);
  const tokens: Token[] = [];
  for (const { startOffset, image, tokenType } of lexed.tokens) {
    if (tokenType !== Newline)
      tokens.push({ kind: kindOf(tokenType), start: startOffset, end: startOffset + image.length });
  }
  if (lexed.comments.length === 0) return tokens;
  for (const { startOffset, image } of lexed.comments) {
    tokens.push({ kind: 'comment', start: startOffset, end: startOffset + image.length });
  }
  return tokens.sort((a, b) => a.start - b.start);
}

function kindOf(type: TokenType): Token['kind'] {
  if (type === Word) return 'name';
  if (type === DocComment) return 'doc';
  if (type === NumberWord || type === DateWord || type === VersionWord) return 'number';
  if (type === Unknown) return 'strange';
  if (isA(type, AnyText)) return 'text';
  if (isA(type, Preposition)) return 'preposition';
  return isA(type, AnyWord) || isA(type, Content) ? 'keyword' : 'sign';
}

function isA(type: TokenType, category: TokenType): boolean {
  return category.categoryMatchesMap?.[type.tokenTypeIdx ?? -1] === true;
}
