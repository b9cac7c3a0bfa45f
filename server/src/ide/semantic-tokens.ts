import type { Body, Container, Placed, Span, Statement } from '@curette/grammar';
import { lastStarting } from '@curette/grammar';
import type { FileFacts } from '../analysis/analysis.ts';
import { descendsFrom } from '../analysis/kinds/subkind.ts';
import type { Module } from '../analysis/names/module.ts';
import { isLibrary } from '../analysis/use-path.ts';
import type { FileId } from '../problems/problem.ts';
import type { Checked } from './checked.ts';
import { declarationsOf, type Meaning } from './meaning.ts';
import { referencesIn } from './meant-words.ts';
import { surroundingsOf } from './surroundings.ts';

/** What a word stands for, as far as its colour goes. */
export const TOKEN_SORTS = [
  'kind',
  'entry',
  'role',
  'action',
  'thing',
  'slot',
  'property',
  'state',
  'finding',
  'value',
  'condition',
  'unit',
  'source',
  'rule',
  'pause',
  'protocol',
  'figures',
  'name',
] as const;

export type TokenSort = (typeof TOKEN_SORTS)[number];

/**
 * `declaration`: the word is declared here; `library`: the shipped library declares it; `misused`: a problem stands at it;
 * `unresolved`: one does, and it stands for nothing known.
 */
export const TOKEN_MARKS = ['declaration', 'library', 'misused', 'unresolved'] as const;

export type TokenMark = (typeof TOKEN_MARKS)[number];

/** A word of a file that stands for something. They come in the order of the text and never overlap. */
export interface SemanticToken {
  readonly start: number;
  readonly end: number;
  readonly sort: TokenSort;
  readonly marks: readonly TokenMark[];
}

/**
 * The words that stand for something, of the statements that touch a stretch. Only those are gone through, and of them a statement
 * whose surroundings are what they were is not read again. Keywords, numbers and texts are not among them: those are known without meaning.
 */
export function semanticTokens(checked: Checked, id: FileId, start: number, end: number): readonly SemanticToken[] {
  const steps = semanticTokensInSteps(checked, id, start, end);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/** How many statements are read at a time. */
const AT_A_TIME = 40;

/** The same, a few statements at a time. */
export function* semanticTokensInSteps(
  checked: Checked,
  id: FileId,
  start: number,
  end: number,
): Generator<void, readonly SemanticToken[]> {
  const facts = checked.facts(id);
  const module = facts?.module;
  if (!facts || !module) return [];
  const troubled = troubledWords(facts);
  const tokens: SemanticToken[] = [];
  const path: Placed[] = [];
  let read = 0;
  function* visit(body: Body, base: number): Generator<void, void> {
    for (let i = Math.max(0, lastStarting(body.offsets, start - base)); i < body.items.length; i++) {
      const statement = body.items[i] as Statement;
      const at = base + (body.offsets[i] as number);
      if (at > end) return;
      if (at + statement.length < start) continue;
      path.push({ statement, start: at });
      if (at + statement.head.end >= start)
        for (const word of wordsOf(checked, facts as FileFacts, module as Module, path)) {
          const token = placed(word, at, troubled.get(statement.id));
          if (token) tokens.push(token);
        }
      read += 1;
      if (read % AT_A_TIME === 0) yield;
      if (statement.body) yield* visit(statement.body, at);
      path.pop();
    }
  }
  yield* visit(facts.file.tree.body, 0);
  return tokens;
}

/** A word of a statement, counted from its start. `sort` is undefined where it stands for nothing known. */
interface Word extends Span {
  readonly sort: TokenSort | undefined;
  readonly fallback: TokenSort;
  readonly declaration: boolean;
  readonly library: boolean;
}

function placed(word: Word, at: number, troubles: readonly Span[] | undefined): SemanticToken | undefined {
  const troubled = troubles?.some(({ start, end }) => word.start <= start && end <= word.end) ?? false;
  // A word that nothing is said of may be as it should be: what a source states is declared nowhere.
  if (word.sort === undefined && !troubled) return undefined;
  const marks: TokenMark[] = [];
  if (word.declaration) marks.push('declaration');
  if (word.library) marks.push('library');
  if (troubled) marks.push(word.sort === undefined ? 'unresolved' : 'misused');
  return { start: at + word.start, end: at + word.end, sort: word.sort ?? word.fallback, marks };
}

/** Of each statement the stretches that an error or a warning underlines. */
function troubledWords(facts: FileFacts): ReadonlyMap<number, readonly Span[]> {
  const known = troubles.get(facts);
  if (known) return known;
  const found = new Map<number, Span[]>();
  for (const { severity, place } of facts.problems) {
    if (severity === 'advice' || place.statement === 0 || place.span.start === place.span.end) continue;
    const spans = found.get(place.statement);
    if (spans) spans.push(place.span);
    else found.set(place.statement, [place.span]);
  }
  troubles.set(facts, found);
  return found;
}

const troubles = new WeakMap<FileFacts, ReadonlyMap<number, readonly Span[]>>();

/** What the words of a statement mean hangs on these alone. */
interface Reading {
  readonly module: Module;
  readonly scope: unknown;
  readonly owner: Statement | undefined;
  readonly words: readonly Word[];
}

const readings = new WeakMap<Statement, Reading>();

function wordsOf(checked: Checked, facts: FileFacts, module: Module, path: readonly Placed[]): readonly Word[] {
  const { statement } = path.at(-1) as Placed;
  const top = (path[0] as Placed).statement;
  const parent = path.at(-2)?.statement;
  const owner = parent?.body && SPEAKS_OF_OWNER.has(parent.body.container) ? parent : undefined;
  const scope = scopeOf(facts, top);
  const known = readings.get(statement);
  if (known && known.module === module && known.scope === scope && known.owner === owner) return known.words;
  const words = read(checked, facts, module, path);
  readings.set(statement, { module, scope, owner, words });
  return words;
}

/** Blocks whose lines mean something by the head that the block belongs to. */
const SPEAKS_OF_OWNER: ReadonlySet<Container> = new Set([
  'kind',
  'properties',
  'finding',
  'options',
  'case',
  'figures',
  'figure',
]);

/** What stays the same while names mean the same: of a protocol its head, of a case the protocol it is of, of others they themselves. */
function scopeOf(facts: FileFacts, top: Statement): unknown {
  if (top.type === 'protocol') return facts.protocols.find(({ statement }) => statement.id === top.id)?.context;
  if (top.type === 'case') return facts.cases.find(({ statement }) => statement.id === top.id);
  return top;
}

function read(checked: Checked, facts: FileFacts, module: Module, path: readonly Placed[]): readonly Word[] {
  const { statement } = path.at(-1) as Placed;
  const words: Word[] = [];
  for (const { start, end, meaning } of referencesIn(surroundingsOf(checked, facts, module, path))) {
    const meant = meaning();
    const places = meant ? declarationsOf(meant) : [];
    const declaration = places.some(
      ({ file, statement: at, span }) => file === module.id && at === statement.id && span.start === start,
    );
    words.push({
      start,
      end,
      sort: meant && sortOf(meant),
      fallback: statement.type === 'step' && statement.verb.start === start ? 'action' : 'name',
      declaration,
      library: !declaration && meant !== undefined && isOfLibrary(meant, places),
    });
  }
  words.sort((a, b) => a.start - b.start || a.end - b.end);
  // A file's name is coloured as the text that it is.
  return words.filter((word, i) => statement.type !== 'use' && word.start >= (words[i - 1]?.end ?? 0));
}

/** What is built in comes with the library. */
function isOfLibrary(meaning: Meaning, places: ReturnType<typeof declarationsOf>): boolean {
  return places.length > 0
    ? places.every(({ file }) => isLibrary(file))
    : meaning.type === 'unit' || meaning.type === 'source';
}

/** Undefined for what has no colour of its own. */
function sortOf(meaning: Meaning): TokenSort | undefined {
  switch (meaning.type) {
    case 'kind':
      return descendsFrom(meaning.kind, 'role') ? 'role' : 'kind';
    case 'entry':
      return descendsFrom(meaning.entry.kind, 'role') ? 'role' : 'entry';
    case 'actions':
      return 'action';
    case 'thing':
      return descendsFrom(meaning.thing.kind, 'role') ? 'role' : 'thing';
    case 'finding value':
      return 'value';
    case 'relation value':
      return 'condition';
    case 'figure group':
      return 'figures';
    case 'file':
    case 'word':
      return undefined;
    case 'rule':
    case 'source':
    case 'finding':
    case 'pause':
    case 'protocol':
    case 'unit':
    case 'property':
    case 'state':
    case 'slot':
    case 'figures':
      return meaning.type;
    default:
      return meaning satisfies never;
  }
}
