/**
 * Kinds of words and signs. The lexer knows one pattern for every word; `lex.ts` turns a word into its keyword where
 * the grammar needs one, so a keyword costs no pattern and may still be a name elsewhere.
 */
import { createToken, Lexer, type TokenType } from 'chevrotain';

const all: TokenType[] = [];

function category(name: string, ...categories: TokenType[]): TokenType {
  return keep(createToken({ name, pattern: Lexer.NA, categories }));
}

/** A kind of token given by `lex.ts`, never by the lexer itself. */
function given(name: string, ...categories: TokenType[]): TokenType {
  return keep(createToken({ name, pattern: Lexer.NA, categories }));
}

function keep(type: TokenType): TokenType {
  all.push(type);
  return type;
}

// ── categories ──────────────────────────────────────────────────────────────────────────────────────────────────────

export const UnitStart = category('UnitStart');
export const UnitEnd = category('UnitEnd');
export const ComparisonSign = category('ComparisonSign');
export const AdditiveSign = category('AdditiveSign');
export const MultiplyingSign = category('MultiplyingSign');
/** `at least`, `at most`, `exactly` */
export const Bound = category('Bound');
/** `..` of a range, `:` of a ratio */
export const RangeSign = category('RangeSign');
/** What a property's type is written with. */
export const TypeWord = category('TypeWord');
/** What may stand in the path of a `use`. */
export const PathPart = category('PathPart');
/** Any word at all. */
export const AnyWord = category('AnyWord', PathPart);
/** What a slot is described with: names, and `or` in `one or more`. */
export const Describing = category('Describing', AnyWord);
/** A word that may be a name. */
export const Named = category('Named', Describing);
/** A name that does not begin a clause where units, kinds and states stand. */
export const Content = category('Content', Named, UnitStart, TypeWord);
export const RelationWord = category('RelationWord', AnyWord);
export const Preposition = category('Preposition', AnyWord);
export const AnyText = category('AnyText');
/** What states a version: `1.2.0`, `3`, `draft2`. */
export const VersionLike = category('VersionLike');

// ── words ───────────────────────────────────────────────────────────────────────────────────────────────────────────

const content = (word: string): TokenType => given(word, Content);
const clausal = (word: string, ...more: TokenType[]): TokenType => given(word, Named, ...more);
const reserved = (word: string, ...categories: TokenType[]): TokenType =>
  given(word, ...(categories.length > 0 ? categories : [AnyWord]));

export const OtherPreposition = given('preposition', Preposition);
export const In = given('in', Preposition);
export const From = given('from', Preposition);
export const Until = given('until', Preposition);
export const At = given('at', Preposition);
export const To = given('to', Preposition);

export const By = reserved('by');
export const Takes = reserved('takes', RelationWord);
export const Because = reserved('because');
export const SourceWord = reserved('source');
export const And = reserved('and');
export const Or = reserved('or', Describing, TypeWord);
export const Not = reserved('not');
export const Is = reserved('is');
export const Has = reserved('has', RelationWord);
export const For = reserved('for');
export const When = reserved('when');
export const Where = reserved('where');
export const Otherwise = reserved('otherwise');
export const Yes = reserved('yes', AnyWord, TypeWord);
export const No = reserved('no', AnyWord, TypeWord);

export const Usually = clausal('usually');
export const Times = clausal('times');
export const Once = clausal('once');
export const Within = clausal('within', ComparisonSign);
export const Then = clausal('then');
export const Only = clausal('only');
export const Before = clausal('before');
export const After = clausal('after');
export const First = clausal('first');
export const Last = clausal('last');
export const Never = clausal('never');
export const Declares = clausal('declares');
export const Lasts = clausal('lasts');
export const Of = clausal('of', TypeWord);
export const Given = clausal('given');
export const Used = clausal('used');

export const Every = content('every');
export const End = content('end');
export const Up = content('up');
export const As = content('as');
export const Each = content('each');
export const All = content('all');
export const Pause = content('pause');
export const Count = content('count');
export const Visit = content('visit');
export const Protocol = content('protocol');
export const Article = content('article');

/** Two words read as one, or a word whose neighbour decides: set by `lex.ts`. */
export const AtLeast = reserved('at least', AnyWord, Bound);
export const AtMost = reserved('at most', AnyWord, Bound);
export const AtHome = reserved('at home');
export const AllergicTo = reserved('allergic to', RelationWord);
/** `exactly` before a number or `once` */
export const Exactly = reserved('exactly', AnyWord, Bound);
/** `total` before a name */
export const Total = reserved('total');
/** `by` before a number, as in `15 mm by 20 mm` */
export const SizeBy = reserved('by in a size');

/** The words that are tokens of their own. */
export const keywords: ReadonlyMap<string, TokenType> = new Map<string, TokenType>([
  ...['with', 'into', 'on', 'over', 'under', 'around', 'through'].map((word): [string, TokenType] => [
    word,
    OtherPreposition,
  ]),
  ...[
    [In, From, Until, At, To],
    [By, Takes, Because, SourceWord, And, Or, Not, Is, Has, For, When, Where, Otherwise, Yes, No],
    [Usually, Times, Once, Within, Then, Only, Before, After, First, Last, Never, Declares, Lasts, Of, Given, Used],
    [Every, End, Up, As, Each, All, Pause, Count, Visit, Protocol],
  ]
    .flat()
    .map((type): [string, TokenType] => [type.name, type]),
  ['a', Article],
  ['the', Article],
]);

// ── what the lexer finds ────────────────────────────────────────────────────────────────────────────────────────────

const range = (from: number, to: number): number[] => Array.from({ length: to - from + 1 }, (_, i) => from + i);
const codes = (characters: string): number[] => Array.from(characters, (character) => character.charCodeAt(0));
const asciiLetters = [...range(65, 90), ...range(97, 122)];
const digits = range(48, 57);
/** Above 255 Chevrotain files first characters in buckets of 255 codes: one code of each bucket stands for it. */
const beyondAscii = [...range(128, 255), 256, ...range(2, 257).map((bucket) => bucket * 255)];
const beyondLatin = beyondAscii.filter((code) => code > 255);

interface Pattern {
  readonly name: string;
  readonly pattern: RegExp | string;
  readonly first: number[];
  readonly categories?: TokenType[];
  readonly skipped?: true;
  readonly group?: string;
}

const lexed: TokenType[] = [];

function pattern({ name, pattern: source, first, categories, skipped, group }: Pattern): TokenType {
  const type = createToken({
    name,
    // Chevrotain drops the `u` flag when it compiles an expression, so those run as patterns of our own.
    pattern: source instanceof RegExp && source.unicode ? matcher(source) : source,
    start_chars_hint: first,
    line_breaks: false,
    ...(categories ? { categories } : {}),
    ...(skipped ? { group: Lexer.SKIPPED } : group ? { group } : {}),
  });
  lexed.push(type);
  return keep(type);
}

function matcher(source: RegExp): (text: string, offset: number) => RegExpExecArray | null {
  const sticky = new RegExp(source.source, 'uy');
  return (text, offset) => {
    sticky.lastIndex = offset;
    return sticky.exec(text);
  };
}

const sign = (name: string, image: string, ...categories: TokenType[]): TokenType =>
  pattern({ name, pattern: image, first: codes(image.charAt(0)), categories });

const spaces =
  '\t\v\f \u00a0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u200b\u200c\u200d\u2028\u2029\u202f\u205f\u3000\ufeff';

pattern({ name: 'space', pattern: new RegExp(`[${spaces}]+`), first: codes(spaces), skipped: true });
/** One or more line ends, with the blank lines between and the indentation of the line that follows. */
export const Newline = pattern({ name: 'line end', pattern: /[\r\n][ \t\r\n]*/, first: codes('\r\n') });
export const Word = pattern({
  name: 'word',
  pattern: /[A-Za-z][A-Za-z0-9_]*(?![A-Za-z0-9_\u0080-\uffff])/,
  first: asciiLetters,
  categories: [Content, VersionLike],
});
export const OtherWord = pattern({
  name: 'word beyond ASCII',
  pattern: /\p{L}[\p{L}\p{M}\p{N}_]*/u,
  first: [...asciiLetters, ...beyondAscii],
});
export const DocComment = pattern({ name: 'doc comment', pattern: /\/\/\/(?!\/)[^\r\n]*/, first: codes('/') });
/** Kept apart from the other tokens. */
export const commentGroup = 'comments';
export const Comment = pattern({ name: 'comment', pattern: /\/\/[^\r\n]*/, first: codes('/'), group: commentGroup });
export const PerUnit = pattern({
  name: 'per unit',
  pattern: /\/\p{L}[\p{L}\p{N}_]*/u,
  first: codes('/'),
  categories: [PathPart, UnitStart, UnitEnd],
});
export const Slash = sign('/', '/', PathPart, MultiplyingSign);
export const DateWord = pattern({ name: 'date', pattern: /\d{4}-\d\d-\d\d(?!\d)/, first: digits });
export const VersionWord = pattern({
  name: 'version',
  pattern: /\d+\.\d+\.\d+(?:[-.][A-Za-z0-9]+)*/,
  first: digits,
  categories: [VersionLike],
});
export const NumberWord = pattern({
  name: 'number',
  pattern: /\d+(?:\.\d+)?/,
  first: digits,
  categories: [VersionLike, PathPart],
});
export const TextWord = pattern({
  name: 'text',
  pattern: /"(?:[^"\\\r\n]|\\[^\r\n])*"/,
  first: codes('"'),
  categories: [AnyText],
});
/** A text that is not closed on its line. */
export const UnclosedText = pattern({
  name: 'unclosed text',
  pattern: /"[^\r\n]*/,
  first: codes('"'),
  categories: [AnyText],
});
/** A text between the quotes a word processor sets. */
export const CurlyText = pattern({
  name: 'text in curly quotes',
  pattern: /[“”„][^“”"\r\n]*[“”"]/,
  first: codes('“”„'),
  categories: [AnyText],
});
export const LCurly = sign('{', '{');
export const RCurly = sign('}', '}');
export const LParen = sign('(', '(');
export const RParen = sign(')', ')');
export const Comma = sign(',', ',');
export const Colon = sign(':', ':', RangeSign);
export const DotDot = pattern({ name: '..', pattern: '..', first: codes('.'), categories: [PathPart, RangeSign] });
export const Dot = sign('dot', '.', PathPart);
export const Arrow = pattern({ name: '->', pattern: '->', first: codes('-') });
export const Minus = sign('-', '-', PathPart, AdditiveSign);
/** A line that a merge of two versions left behind; only at the start of a line. */
export const MergeMarker = pattern({
  name: 'merge marker',
  pattern: /(?<![^\r\n])(?:<{7}|={7}|>{7}|\|{7})[^\r\n]*/,
  first: codes('<=>|'),
});
/** Signs from elsewhere; `foreignSigns` says what is written here. */
export const Foreign = pattern({
  name: 'foreign sign',
  pattern: /==+|!=|<>|&&?|\|\|?|=>|!|[→≤≥–—−…×·]/,
  first: [...codes('=!<&|×·'), ...beyondLatin],
});
export const Semicolon = sign('semicolon', ';');
export const LessEqual = pattern({ name: '<=', pattern: '<=', first: codes('<'), categories: [ComparisonSign] });
export const GreaterEqual = pattern({ name: '>=', pattern: '>=', first: codes('>'), categories: [ComparisonSign] });
export const Less = sign('<', '<', ComparisonSign);
export const Greater = sign('>', '>', ComparisonSign);
export const Equal = sign('=', '=', ComparisonSign);
export const Plus = sign('+', '+', AdditiveSign);
export const Star = sign('*', '*', MultiplyingSign);
export const Percent = sign('%', '%', UnitStart);
export const Degree = pattern({ name: 'degree', pattern: /°[CF]?/, first: codes('°'), categories: [UnitStart] });
/** The bracketed end of some unit codes: `mm[Hg]` */
export const Bracketed = pattern({
  name: 'unit in brackets',
  pattern: /\[[A-Za-z0-9_']{1,20}\][A-Za-z0-9]*/,
  first: codes('['),
  categories: [UnitStart, UnitEnd],
});
/** Whatever else there is: lexing never fails. */
export const Unknown = pattern({
  name: 'unknown',
  pattern: /[^\p{L}\p{N}\s"{}(),.:;<>=!&|+\-*/%°[“”„→≤≥–—−…×·]+|[\s\S]/u,
  first: [...range(0, 127), ...beyondAscii],
});

/** A sign of another notation read as the one that stands for it here. */
export const NotEqual = given('not equal');
export const foreignSigns: ReadonlyMap<string, { readonly type: TokenType; readonly here: string }> = new Map([
  ['=', { type: Equal, here: '"="' }],
  ['!=', { type: NotEqual, here: '"is not"' }],
  ['<>', { type: NotEqual, here: '"is not"' }],
  ['&', { type: And, here: '"and"' }],
  ['|', { type: Or, here: '"or"' }],
  ['!', { type: Not, here: '"not"' }],
  ['=>', { type: Arrow, here: '"->"' }],
  ['→', { type: Arrow, here: '"->"' }],
  ['≤', { type: LessEqual, here: '"<="' }],
  ['≥', { type: GreaterEqual, here: '">="' }],
  ['–', { type: DotDot, here: '".." between two numbers, "-" for minus' }],
  ['—', { type: DotDot, here: '".." between two numbers, "-" for minus' }],
  ['−', { type: Minus, here: '"-"' }],
  ['…', { type: DotDot, here: '".."' }],
  ['×', { type: SizeBy, here: '"by"' }],
  ['·', { type: Dot, here: '"."' }],
]);

/** Every kind the parser may meet. */
export const tokenTypes: readonly TokenType[] = all;

/** What the lexer is made of, most wanted first; a word beyond ASCII is filed as a `Word` by `lex.ts`. */
export const lexerTypes: readonly TokenType[] = lexed;
