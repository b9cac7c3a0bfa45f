/**
 * What every rule of the grammar stands on. A rule reads one line and makes its node at once; where a part is missing it
 * notes what was expected there (`lack`) and goes on, so that what is written of a half-typed line survives.
 */
import { EmbeddedActionsParser, EOF, type IToken } from 'chevrotain';
import { tokenTypes } from '../tokens.ts';
import type { Flaw, Name, NoteStatement, Span, StepStatement, Text } from '../tree.ts';
import { NextWordLookahead } from './lookahead.ts';

/** A node while it is being made. */
export type Draft<T> = T extends unknown ? { -readonly [K in keyof T]: T[K] } : never;

/** What `OR` chooses from. */
export type Alternatives<T> = { ALT: () => T }[];

export const noFlaws: readonly Flaw[] = Object.freeze([]);
export const noNames: readonly Name[] = Object.freeze([]);

/** What every statement has. */
export type StatementBase = Pick<NoteStatement, 'id' | 'length' | 'head' | 'doc' | 'flaws' | 'body'>;

const nothing: StatementBase = {
  id: 0,
  length: 0,
  head: { start: 0, end: 0 },
  doc: undefined,
  flaws: noFlaws,
  body: undefined,
};

export abstract class BaseParser extends EmbeddedActionsParser {
  /** where the statement starts in the text; offsets in nodes count from there */
  protected origin = 0;
  protected characters = '';
  /** whether a block follows the head */
  protected block = false;
  /** What every statement has; a rule spreads it into its node. */
  protected base: StatementBase = nothing;

  // What lines say at their end; a line's rule puts it into its node.
  protected because: Text | undefined;
  protected source: Name | undefined;
  protected takes: StepStatement['takes'];
  protected by: readonly Name[] = noNames;

  /** The first word that was not read; undefined when all were. */
  left: IToken | undefined;

  /** Flaws of the line so far. */
  readonly found: Flaw[] = [];

  constructor(skipValidations: boolean) {
    super([...tokenTypes], {
      recoveryEnabled: false,
      maxLookahead: 1,
      lookaheadStrategy: new NextWordLookahead({ maxLookahead: 1 }),
      skipValidations,
    });
  }

  /**
   * Readies the parser for one line.
   * @param characters the text that the tokens' offsets count in
   * @param origin where the statement starts in it
   */
  ready(tokens: IToken[], characters: string, origin: number, block: boolean, base: StatementBase): void {
    this.characters = characters;
    this.origin = origin;
    this.block = block;
    this.base = base;
    this.because = undefined;
    this.source = undefined;
    this.takes = undefined;
    this.by = noNames;
    if (this.found.length > 0) this.found.length = 0;
    this.input = tokens;
  }

  /**
   * Chevrotain calls this behind every line. Its own version words an error for a developer and saves it; here the words
   * that are left are enough.
   */
  protected onAfterParse(): void {
    const next = this.LA(1);
    this.left = next.tokenType === EOF ? undefined : next;
    const tokens = this.input;
    while (tokens.at(-1)?.tokenType === EOF) tokens.pop();
  }

  protected from(token: IToken): number {
    return token.startOffset - this.origin;
  }

  protected to(token: IToken): number {
    return token.startOffset + token.image.length - this.origin;
  }

  /** Where the last word read ends. */
  protected end(): number {
    return this.to(this.LA(0));
  }

  protected named(token: IToken): Name {
    const start = token.startOffset - this.origin;
    return { start, end: start + token.image.length, text: token.image };
  }

  protected text(token: IToken): Text {
    const start = token.startOffset - this.origin;
    return { type: 'text', start, end: start + token.image.length, value: textValue(token.image) };
  }

  /** Notes that `what` is missing behind the last word read. */
  protected lack(what: string): void {
    if (!this.RECORDING_PHASE) this.lackOf(`${what} after ${quoted(this.LA(0).image)}`);
  }

  /** As `lack`, the sentence being whole already. */
  protected lackOf(expected: string): void {
    if (this.RECORDING_PHASE) return;
    const at = this.end();
    // What is missing first is enough.
    if (this.found.at(-1)?.end === at) return;
    this.found.push({ code: 'unreadable', start: at, end: at, expected });
  }

  /** Notes a sign that is read as another one. */
  protected foreign(span: Span, instead: string): void {
    if (this.RECORDING_PHASE) return;
    this.found.push({ code: 'foreign_sign', start: span.start, end: span.end, expected: instead });
  }

  /** Notes that these words do not belong where they stand. */
  protected misfit(span: Span, expected: string): void {
    if (this.RECORDING_PHASE) return;
    this.found.push({ code: 'unreadable', start: span.start, end: span.end, expected });
  }
}

/** `{ start, end }` with nothing else */
export function spanOf({ start, end }: Span): Span {
  return { start, end };
}

function quoted(image: string): string {
  if (/^[0-9"“]/.test(image)) return image.length > 40 ? `${image.slice(0, 40)}…` : image;
  return `"${image.length > 40 ? `${image.slice(0, 40)}…` : image}"`;
}

/** The words between the quotes, escapes resolved; a text without its closing quote runs to its end. */
function textValue(image: string): string {
  const last = image.charAt(image.length - 1);
  const closed = image.length > 1 && (last === '"' || last === '”' || last === '“') && !endsEscaped(image);
  const inner = closed ? image.slice(1, -1) : image.slice(1);
  return inner.includes('\\') ? inner.replace(/\\(["\\])/g, '$1') : inner;
}

function endsEscaped(image: string): boolean {
  let slashes = 0;
  for (let at = image.length - 2; at > 0 && image.charAt(at) === '\\'; at--) slashes++;
  return slashes % 2 === 1;
}
