/** Where a head goes on: in the next line, or behind a comma. */
import type { IToken, TokenType } from 'chevrotain';
import { CLOSE, COMMA, DOC, END_OF_LINE, layoutKinds, tokenTable } from './token-table.ts';
import {
  AdditiveSign,
  And,
  AnyText,
  Arrow,
  Because,
  By,
  Colon,
  Comma,
  ComparisonSign,
  DotDot,
  Foreign,
  MultiplyingSign,
  Named,
  NumberWord,
  Or,
  Otherwise,
  Preposition,
  SizeBy,
  SourceWord,
  Takes,
  Where,
  Within,
} from './tokens.ts';
import type { Container } from './tree.ts';

/** Whether a line that begins with this word continues the line above. */
export function leadsOn(container: Container, next: IToken): boolean {
  const how = leads[next.tokenTypeIdx] ?? 0;
  if (how === LEADS) return true;
  if (how === LEADS_OUTSIDE_LISTS) return !byBegins.has(container);
  return how === LEADS_IN_STEPS && container === 'steps';
}

/** Whether a head that ends with this word goes on in the next line, if that is indented further. */
export function mayGoOn(last: IToken | undefined): boolean {
  return last !== undefined && trails[last.tokenTypeIdx] === 1;
}

/** In a list parted by commas: whether what follows the comma is one more value of the same line. */
export function listGoesOn(
  container: Container,
  head: readonly IToken[],
  tokens: readonly IToken[],
  after: number,
): boolean {
  if (!valuesIn.has(container)) return false;
  const next = tokens[after];
  const last = head.at(-1);
  if (next === undefined || last === undefined || head.length < 2) return false;
  // A number or a text begins no line.
  const value = layoutKinds[next.tokenTypeIdx] === END_OF_LINE ? tokens[after + 1] : next;
  if (
    value !== undefined &&
    (value.tokenType === NumberWord || AnyText.categoryMatchesMap?.[value.tokenTypeIdx] === true)
  )
    return true;
  if (!isName(next) || !isName(last)) return false;
  // `origin human, bovine`: a lone name behind a name; behind a number the last name is its unit.
  const beforeLast = head.at(-2);
  const unit = beforeLast !== undefined && beforeLast.tokenType === NumberWord;
  const following = layoutKinds[tokens[after + 1]?.tokenTypeIdx ?? 0];
  const lone =
    after + 1 >= tokens.length ||
    following === END_OF_LINE ||
    following === COMMA ||
    following === CLOSE ||
    following === DOC;
  return lone && !unit;
}

/** Blocks of values, some of which may be several. */
const valuesIn: ReadonlySet<Container> = new Set(['properties', 'source', 'case', 'figure']);

function isName(token: IToken): boolean {
  return Named.categoryMatchesMap?.[token.tokenTypeIdx] === true;
}

const LEADS = 1;
const LEADS_OUTSIDE_LISTS = 2;
const LEADS_IN_STEPS = 3;

/** Where `by` begins a line of its own. */
const byBegins: ReadonlySet<Container> = new Set(['action', 'pause', 'source']);
const operators: readonly TokenType[] = [
  Arrow,
  DotDot,
  ComparisonSign,
  AdditiveSign,
  MultiplyingSign,
  And,
  Or,
  Foreign,
];

const leads = tokenTable([
  ...[...operators, Preposition, SizeBy, Because, Where, Comma, Colon].map((type): [TokenType, number] => [
    type,
    LEADS,
  ]),
  // `within` is a sign of comparison, but a property may be called so
  [Within, 0],
  [By, LEADS_OUTSIDE_LISTS],
  ...[Takes, SourceWord, Otherwise].map((type): [TokenType, number] => [type, LEADS_IN_STEPS]),
]);

const trails = tokenTable([...operators, Comma].map((type): [TokenType, number] => [type, 1]));
