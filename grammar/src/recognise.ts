/** Which form a head has: by its first words, else by what it was most likely meant to be. */
import type { IToken, TokenType } from 'chevrotain';
import { entry, type Form, forms, lasts, openForms, property, step, unreadable } from './forms.ts';
import { nearestWord } from './nearest.ts';
import type { Sniff } from './sniff.ts';
import { AllergicTo, AnyText, AnyWord, By, Colon, Is, Lasts, LParen, Named, Preposition } from './tokens.ts';
import type { Container, Flaw } from './tree.ts';
import { lineWords } from './words.ts';

export interface Recognised {
  readonly form: Form;
  /** set when the first word is not the one that belongs here; it lies on that word */
  readonly flaw: Pick<Flaw, 'code' | 'expected'> | undefined;
}

/**
 * @param head the words of the head, one at least
 * @param sniff looks into the block that follows; undefined when none does
 */
export function recognise(container: Container, head: readonly IToken[], sniff: Sniff | undefined): Recognised {
  const first = head[0];
  const word = first?.tokenType === AllergicTo ? AllergicTo.name : (first?.image ?? '');
  const known = forms[container].get(word);
  if (container === 'kind') {
    const second = head[1]?.tokenType;
    if (second === Colon) return { form: property, flaw: undefined };
    if (second === Lasts) return { form: lasts, flaw: undefined };
  }
  const strayed = strayedStep(container, word, head);
  if (strayed !== undefined) return strayed;
  if (known !== undefined) return { form: known, flaw: undefined };
  const open = openForms[container];
  if (open !== undefined && mayBegin(container, head[0])) {
    // A step has no block: one that has is a line of another form, its word misspelt or misplaced.
    if (container !== 'steps' || sniff === undefined) return { form: open, flaw: undefined };
  }
  if (container === 'file' && isEntry(head) && (head.some(is(Is)) || !misplaced(container, word, sniff))) {
    const misspelt =
      sniff !== undefined && resemblesBlock(word)
        ? nearWithBlock(container, word, looksLike(container, sniff))
        : undefined;
    return misspelt ?? { form: entry, flaw: undefined };
  }
  return (
    (sniff ? withBlock(container, word, head, sniff) : withoutBlock(container, word, head)) ?? strange(container, sniff)
  );
}

/** `apply gel to site`: a verb may be called as a declaration is; what goes on with a preposition is a step. */
function strayedStep(container: Container, word: string, head: readonly IToken[]): Recognised | undefined {
  const place = stepPlaces[container];
  if (place === undefined || forms.file.get(word)?.rule !== 'applyLine') return undefined;
  const goesOn = head.some((token) => matches(token, Preposition));
  return goesOn ? { form: step, flaw: { code: 'misplaced', expected: place } } : undefined;
}

function mayBegin(container: Container, first: IToken | undefined): boolean {
  return first !== undefined && (matches(first, Named) || (container === 'source' && first.tokenType === By));
}

/** `GROUP NAME ["label"] [is KIND]` and nothing else */
function isEntry(head: readonly IToken[]): boolean {
  const [group, name] = head;
  if (group === undefined || name === undefined || !matches(group, Named) || !matches(name, Named)) return false;
  const third = head[2];
  return third === undefined || matches(third, AnyText) || third.tokenType === Is;
}

function withBlock(container: Container, word: string, head: readonly IToken[], sniff: Sniff): Recognised | undefined {
  const looks = looksLike(container, sniff);
  const named = head[0] !== undefined && matches(head[0], AnyWord);
  if (!named) return undefined;
  return (
    nearWithBlock(container, word, looks) ??
    misplaced(container, word, sniff) ??
    (looks === undefined ? nearWithBlock(container, word, undefined) : undefined) ??
    signature(container, word, head, looks) ??
    (container === 'steps' && mayBegin(container, head[0]) ? { form: step, flaw: undefined } : undefined)
  );
}

/** Whether an entry's kind is spelled like a word that begins a declaration; the kinds of a file are few. */
function resemblesBlock(word: string): boolean {
  let resembles = resembling.get(word);
  if (resembles === undefined) {
    resembles = [...forms.file].some(
      ([name, form]) => form.body !== undefined && nearestWord(word, [name]) !== undefined,
    );
    if (resembling.size > 1000) resembling.clear();
    resembling.set(word, resembles);
  }
  return resembles;
}

const resembling = new Map<string, boolean>();

/** A misspelt word whose block looks like that word's block. */
function nearWithBlock(container: Container, word: string, looks: Container | undefined): Recognised | undefined {
  const candidates = [...forms[container]].filter(
    ([, form]) => form.body !== undefined && (looks === undefined || form.body === looks),
  );
  const near = nearestWord(
    word,
    candidates.map(([name]) => name),
  );
  const form = near === undefined ? undefined : forms[container].get(near);
  if (form === undefined || (looks === undefined && container === 'file')) return undefined;
  return { form, flaw: { code: 'unreadable', expected: `"${near}"` } };
}

/** A head with slots is an action's or a procedure's, whatever its first word. */
function signature(
  container: Container,
  word: string,
  head: readonly IToken[],
  looks: Container | undefined,
): Recognised | undefined {
  if (container !== 'file' || !head.some(is(LParen)) || word === '') return undefined;
  const name = looks === 'action' ? 'action' : 'procedure';
  const form = forms.file.get(name);
  return form && { form, flaw: { code: 'unreadable', expected: `"${name}"` } };
}

function withoutBlock(container: Container, word: string, head: readonly IToken[]): Recognised | undefined {
  const [first, second] = head;
  if (first === undefined || !matches(first, AnyWord)) return undefined;
  const elsewhere = misplaced(container, word, undefined);
  if (elsewhere !== undefined) return elsewhere;
  const near = nearestWord(word, forms[container].keys());
  const form = near === undefined ? undefined : forms[container].get(near);
  if (form !== undefined) return { form, flaw: { code: 'unreadable', expected: `"${near}"` } };
  if (!matches(first, Named)) return undefined;
  if (container === 'kind' && second !== undefined && matches(second, Named))
    return { form: property, flaw: undefined };
  const place = stepPlaces[container];
  return place === undefined ? undefined : { form: step, flaw: { code: 'misplaced', expected: place } };
}

/** Where steps turn up when the line around them is damaged, and where they belong. */
const stepPlaces: Readonly<Partial<Record<Container, string>>> = {
  file: 'inside a visit',
  protocol: 'inside a visit',
  options: 'inside an option',
  lanes: 'inside a lane',
};

const places: readonly (readonly [Container, string])[] = [
  ['protocol', 'inside a protocol'],
  ['steps', 'inside a visit'],
  ['options', 'inside a decision'],
  ['lanes', 'inside "together"'],
  ['file', 'outside of every block'],
  ['kind', 'inside a kind'],
  ['action', 'inside an action'],
  ['rule', 'inside a rule'],
  ['pause', 'inside a pause'],
];

/** A word that begins a line elsewhere; with a block, only if lines of that form have one. */
function misplaced(container: Container, word: string, sniff: Sniff | undefined): Recognised | undefined {
  for (const [place, expected] of places) {
    const form = place === container ? undefined : forms[place].get(word);
    if (form !== undefined && (sniff === undefined || form.body !== undefined))
      return { form, flaw: { code: 'misplaced', expected } };
  }
  return undefined;
}

function strange(container: Container, sniff: Sniff | undefined): Recognised {
  const body = sniff === undefined ? 'steps' : blockIn(container, sniff);
  return { form: unreadable(body), flaw: { code: 'unreadable', expected: lineOf(container) } };
}

/** What the block is by its own words, as far as they say so. */
function looksLike(container: Container, sniff: Sniff): Container | undefined {
  const { sign } = sniff();
  return sign === 'kind' && (container === 'protocol' || container === 'things') ? 'things' : sign;
}

/** What a block is read as whose head says nothing. */
export function blockIn(container: Container, sniff: Sniff): Container {
  const looks = looksLike(container, sniff);
  if (looks !== undefined) return looks;
  const { shape } = sniff();
  switch (container) {
    case 'file':
      return shape === 'names' ? 'finding' : shape === 'values' ? 'properties' : 'steps';
    case 'protocol':
      return shape === 'names' ? 'things' : 'steps';
    case 'steps':
    case 'options':
    case 'lanes':
      return 'steps';
    default:
      return 'properties';
  }
}

/** What may begin a line there, in plain words. */
function lineOf(container: Container): string {
  const words = lineWords[container].map(({ word }) => word);
  const listed = words.length > 0 ? words.join(', ') : '';
  switch (container) {
    case 'file':
      return `a word that begins a declaration: ${listed}, or a kind and the name of an entry`;
    case 'kind':
      return `a property such as "length : length range", or one of: ${listed}`;
    case 'properties':
    case 'source':
    case 'case':
    case 'figure':
      return 'the name of a property and its value';
    case 'figures':
      return 'the name of an entry or of a kind, and its figures in a block { … }';
    case 'things':
      return 'a name, ":" and what it is';
    case 'team':
      return 'a role';
    case 'finding':
      return 'a value of the finding';
    case 'steps':
      return 'a step that begins with its verb';
    default:
      return `one of: ${listed}`;
  }
}

function is(type: TokenType): (token: IToken) => boolean {
  return (token) => token.tokenType === type;
}

function matches(token: IToken, category: TokenType): boolean {
  return category.categoryMatchesMap?.[token.tokenTypeIdx] === true;
}
