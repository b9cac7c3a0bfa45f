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
  Minus,
  NumberWord,
  Once,
  OtherWord,
  RCurly,
  RParen,
  SizeBy,
  To,
  Total,
  UnclosedText,
  UnitStart,
  Word,
} from './tokens.ts';

/** Tokens in order, everything but spaces and `//` comments. Those of a long text come part by part. */
export interface TokenSource {
  readonly tokens: IToken[];
  /** Adds the next ones to `tokens`; false when there are no more. */
  more(): boolean;
}

export interface Lexed extends TokenSource {
  /** `//` comments, in order */
  readonly comments: readonly IToken[];
}

/** Braces that do not pair, read from left to right. */
export interface Unpaired {
  /** `}` that lack their `{` */
  readonly closes: number;
  /** `{` that lack their `}` */
  readonly opens: number;
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
const minusIdx = indexOf(Minus);
const closingIdx = indexOf(RParen);

/** Long texts are cut into parts of about this many characters: their tokens are gone before the next ones come. */
const partLength = 1 << 15;

/** The tokens of a text, a part at a time. */
export function tokensOf(text: string): TokenSource {
  let from = 0;
  const tokens: IToken[] = [];
  const more = (): boolean => {
    if (from >= text.length) return false;
    const to = lineEndAfter(text, from + partLength);
    for (const token of lexPart(text, from, to).tokens) tokens.push(token);
    from = to;
    return true;
  };
  return { tokens, more };
}

/** Where the run of line ends and blank lines begins that is next; no token crosses it. */
function lineEndAfter(text: string, from: number): number {
  let at = from;
  while (at < text.length && !isLineEnd(text.charCodeAt(at))) at++;
  // Back to the first line end of a run of blank lines; not so far that a part holds next to nothing.
  for (
    let before = at - 1;
    at < text.length && before > from - partLength / 2 && isBlank(text.charCodeAt(before));
    before--
  ) {
    if (isLineEnd(text.charCodeAt(before))) at = before;
  }
  return at;
}

function isLineEnd(code: number): boolean {
  return code === 10 || code === 13;
}

function isBlank(code: number): boolean {
  return code === 32 || code === 9 || isLineEnd(code);
}

/** Never fails: what is no word or sign of the language comes out as `Unknown`. */
export function lex(text: string): Lexed {
  return { ...lexPart(text, 0, text.length), more: () => false };
}

function lexPart(text: string, from: number, to: number): { tokens: IToken[]; comments: readonly IToken[] } {
  const result = lexer.tokenize(from === 0 && to === text.length ? text : text.slice(from, to));
  const tokens = result.tokens;
  let kept = 0;
  let unclosedTexts = 0;
  let previous: IToken | undefined;
  for (const token of tokens) {
    token.startOffset += from;
    const type = token.tokenTypeIdx;
    if (type === wordIdx || type === otherWordIdx) {
      const known = knownWords.get(token.image) ?? learn(token.image);
      token.image = known.image;
      if (known.type !== Word || type === otherWordIdx) retype(token, known.type);
      if (previous !== undefined && joined(text, previous, token, tokens[kept - 2])) continue;
    } else if (type === numberIdx) {
      if (previous?.tokenTypeIdx === byIdx) retype(previous, SizeBy);
      else if (previous?.tokenTypeIdx === wordIdx && previous.image === 'exactly') retype(previous, Exactly);
      else if (previous?.tokenTypeIdx === minusIdx && negative(previous, token, tokens[kept - 2])) kept--;
    } else if (type === unclosedIdx) unclosedTexts++;
    tokens[kept++] = token;
    previous = token;
  }
  tokens.length = kept;
  return {
    tokens: unclosedTexts > 0 ? tokens.flatMap(freeBraces) : tokens,
    comments: result.groups[commentGroup] ?? [],
  };
}

interface KnownWord {
  readonly image: string;
  readonly type: TokenType;
}

/**
 * The keywords, and the names met lately: a name that comes a hundred times is one string, and no name keeps the text alive
 * that it was cut from.
 */
let knownWords = keywordsAlone();
const mostKnown = 20_000;

function keywordsAlone(): Map<string, KnownWord> {
  return new Map(Array.from(keywords, ([image, type]) => [image, { image, type }]));
}

function learn(image: string): KnownWord {
  if (knownWords.size > mostKnown) knownWords = keywordsAlone();
  const own = copyOf(image);
  const known = { image: own, type: Word };
  knownWords.set(own, known);
  return known;
}

/** The same characters in a string of their own: a part cut from a text keeps the whole text in memory. */
export function copyOf(part: string): string {
  return ` ${part}`.slice(1);
}

/** `-5` is one number, `a - 5` and `a-5` are differences. */
export function negative(minus: IToken, number: IToken, before: IToken | undefined): boolean {
  if (minus.startOffset + 1 !== number.startOffset) return false;
  const touches = before !== undefined && before.startOffset + before.image.length === minus.startOffset;
  if (touches && endsValue(before)) return false;
  number.image = `-${number.image}`;
  number.startOffset--;
  return true;
}

function endsValue(token: IToken): boolean {
  const index = token.tokenTypeIdx;
  return index === numberIdx || index === closingIdx || UnitStart.categoryMatchesMap?.[index] === true || isText(token);
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

export function unpaired(tokens: readonly IToken[]): Unpaired {
  let opens = 0;
  let closes = 0;
  for (const token of tokens) {
    if (token.tokenTypeIdx === openIdx) opens++;
    else if (token.tokenTypeIdx === closeIdx) {
      if (opens > 0) opens--;
      else closes++;
    }
  }
  return { opens, closes };
}

function retype(token: IToken, type: TokenType): void {
  token.tokenType = type;
  token.tokenTypeIdx = indexOf(type);
}

function indexOf(type: TokenType): number {
  return type.tokenTypeIdx ?? -1;
}
