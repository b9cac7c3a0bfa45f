/**
 * Lines and blocks. Turns the words of a file into heads and the blocks they own, without looking further into a head
 * than its first words. It walks with a list of open blocks, never by recursion, so depth costs nothing.
 */
import type { IToken } from 'chevrotain';
import { leadsOn, listGoesOn, mayGoOn } from './continuation.ts';
import { partedByCommas } from './forms.ts';
import type { TokenSource, Unpaired } from './lex.ts';
import { Repair } from './repair.ts';
import { type Sniff, sniff } from './sniff.ts';
import { CLOSE, COMMA, DOC, END_OF_LINE, layoutKinds, MERGE, OPEN, PLAIN, SEMICOLON } from './token-table.ts';
import type { Container } from './tree.ts';

/** Blocks nested deeper than this are not read. */
export const deepest = 100;

/** Makes statements out of what the layout finds. `Owner` stands for a statement whose block is open. */
export interface Sink<Owner> {
  /**
   * A head. With an opening it answers the owner of the block and how the block is read.
   * @param start where the statement begins, its doc comment included
   */
  head(
    parent: Owner,
    head: IToken[],
    start: number,
    doc: string | undefined,
    container: Container,
    opening: Opening | undefined,
  ): Opened<Owner> | undefined;
  /** Whether this head is one whose block is wanted. */
  wantsBlock(container: Container, head: readonly IToken[]): boolean;
  /** The end of a block; `brace` is undefined where it is missing. */
  close(owner: Owner, brace: IToken | undefined): void;
  stray(brace: IToken): void;
}

export interface Opening {
  /** offset of `{`, or where it should stand */
  readonly offset: number;
  readonly missing: boolean;
  readonly tooDeep: boolean;
  readonly sniff: Sniff;
}

export interface Opened<Owner> {
  readonly owner: Owner;
  readonly container: Container;
}

export interface Frame<Owner> {
  readonly owner: Owner;
  readonly container: Container;
  readonly commas: boolean;
  /** indentation of the line that the owner begins on */
  readonly indent: number;
  /** indentation of the first line in the block; -1 before there is one */
  bodyIndent: number;
}

export interface Place<Owner> {
  readonly owner: Owner;
  readonly container: Container;
  /** how many blocks are open around it */
  readonly depth: number;
  /** indentation of the line that the text begins on */
  readonly indent: number;
}

/**
 * @param unpaired braces known not to pair: then the indentation says where blocks begin and end
 * @returns false, and nothing to be relied on, when braces do not pair and `unpaired` is not given
 */
export function layout<Owner>(
  source: TokenSource,
  place: Place<Owner>,
  sink: Sink<Owner>,
  unpaired?: Unpaired,
): boolean {
  const { tokens } = source;
  const has = (index: number): boolean => {
    while (index >= tokens.length) if (!source.more()) return false;
    return true;
  };
  const frames: Frame<Owner>[] = [];
  let frame: Frame<Owner> = frameOf(place.owner, place.container, -1);
  const head: IToken[] = [];
  const repair = unpaired && new Repair(unpaired);
  // The line end before the current line: its indentation is looked at only where it matters.
  let line: IToken | undefined;
  const indent = (end: IToken | undefined): number => (end === undefined ? place.indent : indentOf(end));
  let lineStart = true;
  let docStart = -1;
  let doc: string | undefined;

  const leave = (brace: IToken | undefined): void => {
    sink.close(frame.owner, brace);
    frame = frames.pop() ?? frame;
    docStart = -1;
  };

  const open = (
    words: IToken[],
    start: number,
    comment: string | undefined,
    block: { offset: number; missing: boolean; inside: number },
  ) =>
    sink.head(frame.owner, words, start, comment, frame.container, {
      offset: block.offset,
      missing: block.missing,
      tooDeep: frames.length + place.depth >= deepest,
      sniff: () => sniff(source, block.inside),
    });

  const enter = (opened: Opened<Owner> | undefined, indentation: number): void => {
    if (opened === undefined) return;
    frames.push(frame);
    frame = frameOf(opened.owner, opened.container, indentation);
  };

  let at = 0;
  while (has(at)) {
    if (at > consumed && at > tokens.length >> 1) {
      tokens.splice(0, at);
      at = 0;
    }
    const token = tokens[at] as IToken;
    const kind = layoutKinds[token.tokenTypeIdx];
    if (kind === END_OF_LINE) {
      line = token;
      lineStart = true;
      at++;
      continue;
    }
    if (lineStart && repair !== undefined) {
      while (frames.length > 0 && repair.unclosed(frame, indent(line), kind === CLOSE)) leave(undefined);
      const room = frames.length + place.depth < deepest;
      if (kind !== CLOSE && room && repair.headless(frame, indent(line))) {
        const start = docStart >= 0 ? docStart : token.startOffset;
        const opened = open([], start, undefined, { offset: start, missing: true, inside: at });
        enter(opened, frame.bodyIndent);
      }
      if (frame.bodyIndent < 0) frame.bodyIndent = indent(line);
    }
    if (kind === DOC) {
      const line = docLine(token.image);
      doc = docStart < 0 ? line : `${doc}\n${line}`;
      if (docStart < 0) docStart = token.startOffset;
      at++;
      continue;
    }
    if (kind === CLOSE) {
      if (frames.length === 0 && repair === undefined) return false;
      if (frames.length === 0 || (lineStart && repair?.stray(frame, indent(line)) === true)) sink.stray(token);
      else leave(token);
      lineStart = false;
      docStart = -1;
      at++;
      continue;
    }
    lineStart = false;
    if (kind === COMMA && frame.commas) {
      at++;
      continue;
    }

    // A head: from here to the end of its lines.
    const ownLine = line;
    const start = docStart >= 0 ? docStart : token.startOffset;
    const comment = docStart >= 0 ? doc : undefined;
    docStart = -1;
    head.length = 0;
    let brace: IToken | undefined;
    let lineEnd: IToken | undefined;
    for (; has(at); at++) {
      const next = tokens[at] as IToken;
      const sort = layoutKinds[next.tokenTypeIdx];
      if (sort === PLAIN) {
        head.push(next);
      } else if (sort === END_OF_LINE) {
        let last = next;
        let after = at + 1;
        while (has(after) && layoutKinds[tokens[after]?.tokenTypeIdx ?? 0] === END_OF_LINE)
          last = tokens[after++] as IToken;
        const first = tokens[after];
        if (first === undefined) {
          at = after;
          break;
        }
        const opens = layoutKinds[first.tokenTypeIdx] === OPEN;
        if (!opens && !leadsOn(frame.container, first) && !(mayGoOn(head.at(-1)) && indent(last) > indent(ownLine))) {
          lineEnd = last;
          break;
        }
        line = last;
        at = after - 1;
      } else if (sort === OPEN) {
        brace = next;
        at++;
        break;
      } else if (sort === COMMA) {
        if (frame.commas) has(at + 2);
        if (frame.commas && !listGoesOn(frame.container, head, tokens, at + 1)) {
          at++;
          break;
        }
        head.push(next);
      } else if (sort === SEMICOLON) {
        head.push(next);
        at++;
        break;
      } else if (sort === MERGE) {
        if (head.length === 0) {
          head.push(next);
          at++;
        }
        break;
      } else if (sort === CLOSE) break;
    }

    let offset = brace?.startOffset;
    if (brace === undefined && lineEnd !== undefined && repair !== undefined && indent(lineEnd) > indent(ownLine)) {
      if (repair.missingOpen() && sink.wantsBlock(frame.container, head)) {
        repair.opened();
        offset = endOf(head.at(-1), start);
      }
    }
    if (offset === undefined) {
      sink.head(frame.owner, head, start, comment, frame.container, undefined);
      continue;
    }
    const tooDeep = frames.length + place.depth >= deepest;
    enter(open(head, start, comment, { offset, missing: brace === undefined, inside: at }), indent(ownLine));
    if (tooDeep) {
      at = blockEnd(source, at);
      if (!has(at) && repair === undefined) return false;
      leave(tokens[at]);
      at++;
    }
  }
  if (frames.length > 0 && repair === undefined) return false;
  while (frames.length > 0) leave(undefined);
  return true;
}

/** Tokens that were read are dropped once there are this many, and more than are still to be read. */
const consumed = 4096;

/** Index of the `}` that closes the block, or the number of tokens. */
function blockEnd({ tokens, more }: TokenSource, from: number): number {
  let depth = 1;
  for (let at = from; at < tokens.length || more(); at++) {
    const kind = layoutKinds[tokens[at]?.tokenTypeIdx ?? 0];
    if (kind === OPEN) depth++;
    else if (kind === CLOSE && --depth === 0) return at;
  }
  return tokens.length;
}

function frameOf<Owner>(owner: Owner, container: Container, indent: number): Frame<Owner> {
  return { owner, container, commas: partedByCommas(container), indent, bodyIndent: -1 };
}

function endOf(token: IToken | undefined, otherwise: number): number {
  return token === undefined ? otherwise : token.startOffset + token.image.length;
}

/** How far the line behind this line end is indented, in characters. */
export function indentOf(lineEnd: IToken): number {
  const { image } = lineEnd;
  let at = image.length;
  while (image.charCodeAt(at - 1) === 32 || image.charCodeAt(at - 1) === 9) at--;
  return image.length - at;
}

/** The words of a `///` line: without the marks and one space behind them. */
function docLine(image: string): string {
  return image.slice(image.charAt(3) === ' ' ? 4 : 3).trimEnd();
}
