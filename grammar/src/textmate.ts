/**
 * Colours before the server has answered: a TextMate grammar and VS Code's language configuration, both made from the word
 * list. It knows lines and words, not what a name means; the server's answers refine it.
 */
import {
  clauseWords,
  functionNames,
  joiningWords,
  lineWords,
  prepositions,
  propertyForms,
  quantityNames,
  reservedWords,
  valueWords,
} from './words.ts';

interface Rule {
  readonly name?: string;
  readonly match?: string;
  readonly begin?: string;
  readonly end?: string;
  readonly captures?: Record<string, { name: string }>;
  readonly beginCaptures?: Record<string, { name: string }>;
  readonly endCaptures?: Record<string, { name: string }>;
  readonly patterns?: readonly Rule[];
  readonly include?: string;
}

const word = '[\\p{L}][\\p{L}\\p{M}\\p{N}_]*';
const lineStart = '(?:^|(?<=[{}]))\\s*';

/** Alternatives for words and phrases, the longest first; blanks in a phrase may be several. */
function oneOf(words: Iterable<string>): string {
  const sorted = [...new Set(words)].sort((a, b) => b.length - a.length || a.localeCompare(b));
  return `(?:${sorted.map((phrase) => phrase.replaceAll(' ', '\\s+')).join('|')})`;
}

const whole = (pattern: string): string => `(?<![\\p{L}\\p{N}_])${pattern}(?![\\p{L}\\p{M}\\p{N}_])`;

/** A verb may be called so as well: then it goes on with a preposition. */
const outermost = 'apply';
const lines = Object.values(lineWords)
  .flat()
  .filter(({ word: first }) => first !== outermost);
const naming = lines.filter(({ block }) => block).map(({ word: first }) => first);
/** Blocks that have no name of their own. */
const nameless = new Set([
  'given',
  'team',
  'materials',
  'instruments',
  'together',
  'otherwise',
  'repeat',
  'decide',
  'option',
  'complication',
]);
const declared = naming.filter((first) => !nameless.has(first));
const verbs = new Set(['action', 'procedure']);

const per = '/\\p{L}[\\p{L}\\p{N}_]*';
const unit = `(?:${word}|%|°[CF]?|${per})(?:\\.${word}|${per}|\\[[^\\]\\s]+\\])*`;
/** Words that may stand behind a number and are not its unit. */
const noUnit = oneOf([...reservedWords, ...joiningWords]);

const rules: Record<string, Rule> = {
  doc: { name: 'comment.line.documentation.curette', match: '///(?!/).*$' },
  comment: { name: 'comment.line.double-slash.curette', match: '//.*$' },
  merge: { name: 'invalid.illegal.merge-marker.curette', match: '^(?:<{7}|={7}|>{7}|\\|{7}).*$' },
  text: {
    name: 'string.quoted.double.curette',
    begin: '"',
    end: '"|$',
    beginCaptures: { 0: { name: 'punctuation.definition.string.begin.curette' } },
    endCaptures: { 0: { name: 'punctuation.definition.string.end.curette' } },
    patterns: [{ name: 'constant.character.escape.curette', match: '\\\\["\\\\]' }],
  },
  use: {
    match: `${lineStart}(use)\\s+([^\\s{}"]+)`,
    captures: { 1: { name: 'keyword.control.import.curette' }, 2: { name: 'string.unquoted.path.curette' } },
  },
  verb: {
    match: `${lineStart}(${oneOf(verbs)})\\s+(${word})`,
    captures: { 1: { name: 'storage.type.curette' }, 2: { name: 'entity.name.function.curette' } },
  },
  declaration: {
    match: `${lineStart}(${oneOf(declared.filter((first) => !verbs.has(first)))})\\s+(${word})`,
    captures: { 1: { name: 'storage.type.curette' }, 2: { name: 'entity.name.type.curette' } },
  },
  applied: {
    match: `${lineStart}(${outermost})\\s+(${word})(?=\\s*(?:because|source|//|$))`,
    captures: { 1: { name: 'keyword.other.line.curette' }, 2: { name: 'entity.name.type.curette' } },
  },
  chosen: {
    match: `${lineStart}(severity|status)\\s+(${oneOf([...valueWords.severity, ...valueWords.status])})(?![\\p{L}\\p{N}_])`,
    captures: { 1: { name: 'keyword.other.line.curette' }, 2: { name: 'constant.language.curette' } },
  },
  property: {
    match: `(${word})(?=\\s*:(?!\\d))`,
    captures: { 1: { name: 'variable.other.property.curette' } },
  },
  measured: {
    match: `(?<=:)\\s*(${oneOf([...quantityNames, ...propertyForms])})(\\s+range)?(?![\\p{L}\\p{N}_])`,
    captures: { 1: { name: 'support.type.curette' }, 2: { name: 'support.type.curette' } },
  },
  line: {
    match: `${lineStart}(${oneOf(lines.map(({ word: first }) => first))})(?![\\p{L}\\p{M}\\p{N}_])(?!\\s*:)`,
    captures: { 1: { name: 'keyword.other.line.curette' } },
  },
  date: { name: 'constant.numeric.date.curette', match: whole('\\d{4}-\\d\\d-\\d\\d') },
  version: { name: 'constant.numeric.version.curette', match: whole('\\d+\\.\\d+\\.\\d+(?:[-.][A-Za-z0-9]+)*') },
  quantity: {
    match: `(?<![\\p{L}\\p{N}_])(\\d+(?:\\.\\d+)?)(?:\\s*(?!${whole(noUnit)})(${unit}))?`,
    captures: { 1: { name: 'constant.numeric.curette' }, 2: { name: 'keyword.other.unit.curette' } },
  },
  bound: {
    name: 'keyword.operator.word.curette',
    match: whole(oneOf(['at least', 'at most', 'at home', 'allergic to'])),
  },
  clause: { name: 'keyword.other.clause.curette', match: whole(oneOf(clauseWords.map(({ word: first }) => first))) },
  preposition: { name: 'keyword.other.preposition.curette', match: whole(oneOf(prepositions)) },
  call: { match: `(${oneOf(functionNames)})(?=\\s*\\()`, captures: { 1: { name: 'support.function.curette' } } },
  constant: { name: 'constant.language.curette', match: whole(oneOf(valueWords['yes or no'])) },
  // Only words that no name may be, or that hardly are one: a colour must not mislead.
  joining: {
    name: 'keyword.operator.word.curette',
    match: whole(
      oneOf(['is', 'not', 'and', 'or', 'has', 'for', 'when', 'where', 'otherwise', 'within', 'lasts', 'declares']),
    ),
  },
  operator: { name: 'keyword.operator.curette', match: '->|\\.\\.|<=|>=|[<>=+*/]|(?<=\\s)-(?=\\s)' },
  brace: { name: 'punctuation.section.block.curette', match: '[{}]' },
  bracket: { name: 'punctuation.section.brackets.curette', match: '[()]' },
  separator: { name: 'punctuation.separator.curette', match: '[,:]' },
};

/** The grammar as VS Code reads it, scope `source.curette`. */
export function textMateGrammar() {
  return {
    name: 'Curette',
    scopeName: 'source.curette',
    fileTypes: ['curette'],
    patterns: Object.keys(rules).map((name) => ({ include: `#${name}` })),
    repository: rules,
  };
}

/** Comments, brackets, indentation and what a word is, as VS Code reads them. */
export function languageConfiguration() {
  return {
    comments: { lineComment: '//' },
    brackets: [
      ['{', '}'],
      ['(', ')'],
    ],
    colorizedBracketPairs: [
      ['{', '}'],
      ['(', ')'],
    ],
    autoClosingPairs: [
      { open: '{', close: '}', notIn: ['string', 'comment'] },
      { open: '(', close: ')', notIn: ['string', 'comment'] },
      { open: '"', close: '"', notIn: ['string', 'comment'] },
    ],
    autoCloseBefore: ' \t\r\n,)}',
    surroundingPairs: [
      ['{', '}'],
      ['(', ')'],
      ['"', '"'],
    ],
    wordPattern: { pattern: word, flags: 'u' },
    indentationRules: {
      increaseIndentPattern: { pattern: '^(?:[^"/]|"(?:[^"\\\\]|\\\\.)*"|/(?!/))*\\{[^}"]*$' },
      decreaseIndentPattern: { pattern: '^\\s*\\}' },
    },
    onEnterRules: [
      { beforeText: { pattern: '^\\s*///(?!/)\\s*\\S.*$' }, action: { indent: 'none', appendText: '/// ' } },
    ],
  };
}
