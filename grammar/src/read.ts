/** Heads to statements: chooses the form, runs the grammar on the line, and gathers what is wrong with it. */
import type { IToken, TokenType } from 'chevrotain';
import type { Form } from './forms.ts';
import type { Opened, Opening, Sink } from './layout.ts';
import { negative } from './lex.ts';
import { type Draft, noFlaws, type StatementBase } from './parser/base.ts';
import { LineParser } from './parser/line-parser.ts';
import { blockIn, recognise } from './recognise.ts';
import { tokenTable } from './token-table.ts';
import {
  AdditiveSign,
  And,
  ComparisonSign,
  CurlyText,
  Foreign,
  foreignSigns,
  LParen,
  MergeMarker,
  MultiplyingSign,
  Not,
  NumberWord,
  Or,
  RParen,
  Semicolon,
  UnclosedText,
  Unknown,
} from './tokens.ts';
import type { Body, Container, Flaw, Statement } from './tree.ts';

/** A statement whose block is being read, or the file. */
export interface Owner {
  readonly statement: Draft<Statement> | undefined;
  /** where the statement starts in the text */
  readonly start: number;
  readonly container: Container;
  /** offset of `{` in the text; -1 in a file */
  readonly open: number;
  /** false where `{` is missing */
  readonly braced: boolean;
  readonly items: Statement[];
  readonly offsets: number[];
}

/** More flaws on one line than this are not told one by one. */
const mostFlaws = 20;
/** Brackets nested deeper, or more signs in one condition, are not read. */
const deepestBrackets = 100;
const mostSigns = 200;

const parser = new LineParser();

export class Reader implements Sink<Owner> {
  readonly strays: Flaw[] = [];
  private readonly flaws: Flaw[] = [];
  /** whether a block was nested too deep to be read */
  tooDeep = false;

  /** @param nextId the number the first statement gets */
  constructor(
    private readonly text: string,
    public nextId: number,
  ) {}

  head(
    parent: Owner,
    head: IToken[],
    start: number,
    doc: string | undefined,
    container: Container,
    opening: Opening | undefined,
  ): Opened<Owner> | undefined {
    const first = head[0];
    const last = head.at(-1);
    const from = first?.startOffset ?? opening?.offset ?? start;
    const to = last === undefined ? from : last.startOffset + last.image.length;
    const base: StatementBase = {
      id: this.nextId++,
      length: to - start,
      head: { start: from - start, end: to - start },
      doc,
      flaws: noFlaws,
      body: undefined,
    };
    const { flaws } = this;
    flaws.length = 0;
    const cut = clean(head, start, flaws);
    const { form, flaw } = recognise(container, head, opening?.sniff);
    if (flaw !== undefined && (head.length > 0 || (flaws.length === 0 && opening?.missing !== true))) {
      const word = head[0];
      flaws.push({
        ...flaw,
        start: (word?.startOffset ?? from) - start,
        end:
          (word === undefined ? from : form.rule === 'unreadableLine' ? to : word.startOffset + word.image.length) -
          start,
      });
    }
    parser.ready(head, this.text, start, opening !== undefined, base);
    const statement = parser.line(form.rule);
    if (parser.found.length > 0 && !cut) flaws.push(...parser.found.slice(0, mostFlaws));
    if (parser.left !== undefined && form.rule !== 'unreadableLine')
      leftOver(flaws, parser.left.startOffset - start, to - start, form);
    if (form.wants !== undefined && opening === undefined && flaws.length === 0) {
      flaws.push({ code: 'unreadable', start: to - start, end: to - start, expected: form.wants });
    }
    parent.items.push(statement);
    parent.offsets.push(start - parent.start);
    if (opening?.tooDeep === true) this.tooDeep = true;
    const opened = opening && open(statement, start, container, form, opening, flaws);
    if (flaws.length > 0) statement.flaws = flaws.slice().sort((a, b) => a.start - b.start || a.end - b.end);
    return opened;
  }

  wantsBlock(container: Container, head: readonly IToken[]): boolean {
    if (head.length === 0) return false;
    const { form } = recognise(container, head, undefined);
    return form.body !== undefined;
  }

  close(owner: Owner, brace: IToken | undefined): void {
    const { statement, start, container, open, items, offsets } = owner;
    if (statement === undefined) return;
    const last = items.at(-1);
    const end =
      brace !== undefined
        ? brace.startOffset + 1 - start
        : last !== undefined
          ? (offsets.at(-1) ?? 0) + last.length
          : open + 1 - start;
    const body: Body = {
      container,
      open: open - start,
      close: brace && brace.startOffset - start,
      items: items.slice(),
      offsets: offsets.slice(),
    };
    statement.body = body;
    statement.length = Math.max(end, statement.length);
    if (brace === undefined && owner.braced) {
      const flaw: Flaw = { code: 'unclosed_block', start: open - start, end: open + 1 - start, expected: '"}"' };
      statement.flaws = [...statement.flaws, flaw];
    }
  }

  stray(brace: IToken): void {
    this.strays.push({
      code: 'stray_close',
      start: brace.startOffset,
      end: brace.startOffset + 1,
      expected: undefined,
    });
  }
}

function open(
  statement: Draft<Statement>,
  start: number,
  around: Container,
  form: Form,
  opening: Opening,
  flaws: Flaw[],
): Opened<Owner> {
  const at = opening.offset - start;
  if (opening.missing) {
    const expected = statement.head.end === statement.head.start ? headless : '"{" at the end of the line';
    flaws.push({ code: 'unreadable', start: at, end: at, expected });
  }
  if (opening.tooDeep) flaws.push({ code: 'too_deep', start: at, end: at + 1, expected: undefined });
  if (form.body === undefined) {
    flaws.push({ code: 'unreadable', start: at, end: at + 1, expected: 'the end of the line: no block belongs to it' });
  }
  const container = form.body ?? blockIn(around, opening.sniff);
  return {
    owner: { statement, start, container, open: opening.offset, braced: !opening.missing, items: [], offsets: [] },
    container,
  };
}

const headless = 'a line that ends in "{" and says what the lines below are';

/** Words behind the last one that fits. */
function leftOver(flaws: Flaw[], start: number, end: number, form: Form): void {
  const last = flaws.at(-1);
  // What is missing and what stands there instead is one flaw.
  if (last !== undefined && last.code === 'unreadable' && last.start === last.end && last.end <= start) {
    flaws[flaws.length - 1] = { ...last, start, end };
    return;
  }
  const expected =
    form.rule === 'stepLine'
      ? 'a preposition such as "with" or "on", one of "takes", "by", "because", "source", or the end of the line'
      : 'the end of the line';
  flaws.push({ code: 'unreadable', start, end, expected });
}

/**
 * Takes out of the head what is not the language, and notes it.
 * @returns whether the head was cut short, being too deep
 */
function clean(head: IToken[], start: number, flaws: Flaw[]): boolean {
  let kept = 0;
  let depth = 0;
  let signs = 0;
  const count = head.length;
  for (let at = 0; at < count; at++) {
    const token = head[at] as IToken;
    const kind = special[token.tokenTypeIdx];
    if (kind !== 0) {
      const span = { start: token.startOffset - start, end: token.startOffset + token.image.length - start };
      if (kind === BRACKET) depth++;
      else if (kind === CLOSING) depth--;
      else if (kind === SIGN) signs++;
      else {
        const next = head[at + 1];
        const minus = next !== undefined && isMinus(token, next, head[kept - 1]);
        if (flaws.length < mostFlaws) flaws.push(...(minus ? [asMinus(span)] : told(token, span, next)));
        const instead = minus ? undefined : replacement(token);
        if (instead !== undefined) head[kept++] = instead;
        continue;
      }
      if (depth > deepestBrackets || signs > mostSigns) {
        const last = head[count - 1] ?? token;
        flaws.push({
          code: 'too_deep',
          start: span.start,
          end: last.startOffset + last.image.length - start,
          expected: undefined,
        });
        head.length = kept;
        return true;
      }
    }
    head[kept++] = token;
  }
  head.length = kept;
  return false;
}

/** A dash before a number and behind no value: the number's sign, which it is then given. */
function isMinus(token: IToken, next: IToken, before: IToken | undefined): boolean {
  if (!isDash(token) || next.tokenType !== NumberWord || before?.tokenType === NumberWord) return false;
  return next.startOffset === token.startOffset || negative(token, next, before);
}

function asMinus(span: { start: number; end: number }): Flaw {
  return { code: 'foreign_sign', ...span, expected: '"-"' };
}

function isDash(token: IToken): boolean {
  return token.tokenType === Foreign && /^[–—−]$/.test(token.image);
}

function told(token: IToken, span: { start: number; end: number }, next: IToken | undefined): Flaw[] {
  switch (token.tokenType) {
    case UnclosedText:
      return [{ code: 'unclosed_text', ...span, expected: 'a closing quote' }];
    case CurlyText:
      return [{ code: 'foreign_sign', ...span, expected: 'straight quotes "…"' }];
    case Semicolon:
      return [{ code: 'foreign_sign', ...span, expected: 'a new line' }];
    case MergeMarker:
      return [{ code: 'merge_marker', ...span, expected: undefined }];
    case Foreign: {
      const range = isDash(token) && next?.tokenType === NumberWord && token.image !== '−';
      const expected = range ? '".."' : foreignSigns.get(familiar(token.image))?.here;
      return [{ code: 'foreign_sign', ...span, expected }];
    }
    default:
      return [{ code: 'unreadable', ...span, expected: 'words, numbers, texts in quotes' }];
  }
}

/** The token to read in its place; undefined when there is none. */
function replacement(token: IToken): IToken | undefined {
  if (token.tokenType === UnclosedText || token.tokenType === CurlyText) return token;
  if (token.tokenType !== Foreign) return undefined;
  const type = foreignSigns.get(familiar(token.image))?.type;
  return type && { ...token, tokenType: type, tokenTypeIdx: type.tokenTypeIdx ?? 0 };
}

/** `===` as `=`, `&&` as `&` */
function familiar(image: string): string {
  return /^(=+|&+|\|+)$/.test(image) ? image.charAt(0) : image;
}

const BRACKET = 1;
const CLOSING = 2;
const SIGN = 3;
const STRANGE = 4;

const special = tokenTable([
  ...[AdditiveSign, MultiplyingSign, ComparisonSign, And, Or, Not].map((type): [TokenType, number] => [type, SIGN]),
  [LParen, BRACKET],
  [RParen, CLOSING],
  ...[UnclosedText, CurlyText, Semicolon, MergeMarker, Foreign, Unknown].map((type): [TokenType, number] => [
    type,
    STRANGE,
  ]),
]);
