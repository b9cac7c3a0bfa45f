/** Text to tokens: one fast run of the lexer, then one pass that finds the keywords among the words. */
import { type IToken, Lexer, type TokenType } from 'chevrotain';
import {
  AllergicTo,
  AnyText,
  At,
  AtHome,
  AtLeast,
  AtMost,
  By,
  commentGroup,
  Exactly,
  keywords,
  LCurly,
  lexerTypes,
  NumberWord,
  Once,
  OtherWord,
  RCurly,
  SizeBy,
  To,
  Total,
  UnclosedText,
  Word,
} from './tokens.ts';

export interface Lexed {
  /** everything but spaces and `//` comments, in order */
  readonly tokens: IToken[];
  /** `//` comments, in order */
  readonly comments: readonly IToken[];
  /** how many `}` lack their `{` and how many `{` their `}`, read from left to right */
  readonly strayCloses: number;
  readonly unclosed: number;
}

const lexer = new Lexer([...lexerTypes], {
  positionTracking: 'onlyOffset',
  ensureOptimizations: true,
  skipValidations: true,
});

const wordIdx = indexOf(Word);
const otherWordIdx = indexOf(OtherWord);
const numberIdx = indexOf(NumberWord);
const openIdx = indexOf(LCurly);
const closeIdx = indexOf(RCurly);
const unclosedIdx = indexOf(UnclosedText);
const byIdx = indexOf(By);
const atIdx = indexOf(At);
const toIdx = indexOf(To);
const onceIdx = indexOf(Once);

/** Never fails: what is no word or sign of the language comes out as `Unknown`. */
export function lex(text: string): Lexed {
  const result = lexer.tokenize(text);
  const comments = result.groups[commentGroup] ?? [];
  const tokens = result.tokens;
  let kept = 0;
  let unclosedTexts = 0;
  let previous: IToken | undefined;
  for (const token of tokens) {
    const type = token.tokenTypeIdx;
    if (type === wordIdx || type === otherWordIdx) {
      if (type === otherWordIdx) retype(token, Word);
      const keyword = keywords.get(token.image);
      if (keyword !== undefined) retype(token, keyword);
      if (previous !== undefined && joined(text, previous, token, tokens[kept - 2])) continue;
    } else if (type === numberIdx) {
      if (previous?.tokenTypeIdx === byIdx) retype(previous, SizeBy);
      else if (previous?.tokenTypeIdx === wordIdx && previous.image === 'exactly') retype(previous, Exactly);
    } else if (type === unclosedIdx) unclosedTexts++;
    tokens[kept++] = token;
    previous = token;
  }
  tokens.length = kept;
  const whole = unclosedTexts > 0 ? tokens.flatMap(freeBraces) : tokens;
  return { tokens: whole, comments, ...balance(whole) };
}

/** Whether the word went into the one before it: `at least` is one token. A word may also show what the last one is. */
function joined(text: string, previous: IToken, token: IToken, beforePrevious: IToken | undefined): boolean {
  const type = previous.tokenTypeIdx;
  if (type === atIdx) {
    const both = afterAt(token.image, beforePrevious);
    if (both === undefined) return false;
    join(text, previous, token, both);
    return true;
  }
  if (type !== wordIdx) return false;
  if (token.tokenTypeIdx === toIdx && previous.image === 'allergic') {
    join(text, previous, token, AllergicTo);
    return true;
  }
  if (token.tokenTypeIdx === wordIdx && previous.image === 'total') retype(previous, Total);
  else if (token.tokenTypeIdx === onceIdx && previous.image === 'exactly') retype(previous, Exactly);
  return false;
}

function afterAt(word: string, before: IToken | undefined): TokenType | undefined {
  if (word === 'least') return AtLeast;
  if (word === 'most') return AtMost;
  return word === 'home' && before !== undefined && isText(before) ? AtHome : undefined;
}

function isText(token: IToken): boolean {
  return AnyText.categoryMatchesMap?.[token.tokenTypeIdx] === true;
}

function join(text: string, previous: IToken, token: IToken, type: TokenType): void {
  previous.image = text.slice(previous.startOffset, token.startOffset + token.image.length);
  retype(previous, type);
}

/** A text that lost its closing quote must not take the line's braces along. */
function freeBraces(token: IToken): IToken | IToken[] {
  if (token.tokenTypeIdx !== unclosedIdx) return token;
  const { image, startOffset } = token;
  const braces: IToken[] = [];
  let end = image.length;
  for (let at = end - 1; at > 0; at--) {
    const sign = image.charAt(at);
    if (sign === '{' || sign === '}') {
      const type = sign === '{' ? LCurly : RCurly;
      braces.unshift({ image: sign, startOffset: startOffset + at, tokenType: type, tokenTypeIdx: indexOf(type) });
      end = at;
    } else if (sign !== ' ' && sign !== '\t') break;
  }
  if (braces.length === 0) return token;
  token.image = image.slice(0, end).trimEnd();
  return [token, ...braces];
}

function balance(tokens: readonly IToken[]): { strayCloses: number; unclosed: number } {
  let unclosed = 0;
  let strayCloses = 0;
  for (const token of tokens) {
    if (token.tokenTypeIdx === openIdx) unclosed++;
    else if (token.tokenTypeIdx === closeIdx) {
      if (unclosed > 0) unclosed--;
      else strayCloses++;
    }
  }
  return { strayCloses, unclosed };
}

function retype(token: IToken, type: TokenType): void {
  token.tokenType = type;
  token.tokenTypeIdx = indexOf(type);
}

function indexOf(type: TokenType): number {
  return type.tokenTypeIdx ?? -1;
}
