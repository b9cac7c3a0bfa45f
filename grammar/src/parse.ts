/** A whole file, read from nothing. */
import { layout } from './layout.ts';
import { lex, type TokenSource, tokensOf, type Unpaired, unpaired } from './lex.ts';
import { type Owner, Reader } from './read.ts';
import type { SyntaxTree } from './tree.ts';

/**
 * Never throws: whatever the text, there is a tree, and what could not be read is in its flaws.
 * @param firstId the number the first statement gets
 */
export function parse(text: string, firstId = 1): SyntaxTree {
  return read(text, tokensOf(text), firstId) ?? parseUneven(text, firstId);
}

/** As `parse`; sooner done when braces are likely not to pair, for they are counted first. */
export function parseUneven(text: string, firstId: number): SyntaxTree {
  const lexed = lex(text);
  const uneven = unpaired(lexed.tokens);
  const pairs = uneven.opens + uneven.closes === 0;
  return read(text, lexed, firstId, pairs ? undefined : uneven) ?? empty(text, firstId);
}

/** @returns undefined when braces do not pair and that is not known yet */
function read(text: string, source: TokenSource, firstId: number, uneven?: Unpaired): SyntaxTree | undefined {
  const reader = new Reader(text, firstId);
  const file: Owner = {
    statement: undefined,
    start: 0,
    container: 'file',
    open: -1,
    braced: true,
    items: [],
    offsets: [],
  };
  const whole = layout(source, { owner: file, container: 'file', depth: 0, indent: indentAt(text, 0) }, reader, uneven);
  if (!whole) return undefined;
  return {
    length: text.length,
    body: { container: 'file', open: -1, close: undefined, items: file.items, offsets: file.offsets },
    flaws: reader.strays,
    sound: uneven === undefined && !reader.tooDeep,
    nextId: reader.nextId,
  };
}

function empty(text: string, nextId: number): SyntaxTree {
  const body = { container: 'file' as const, open: -1, close: undefined, items: [], offsets: [] };
  return { length: text.length, body, flaws: [], sound: false, nextId };
}

/** How far the line that `at` stands on is indented: its leading white space, in characters. */
export function indentAt(text: string, at: number): number {
  let start = at;
  while (start > 0 && text.charAt(start - 1) !== '\n' && text.charAt(start - 1) !== '\r') start--;
  let end = start;
  while (text.charAt(end) === ' ' || text.charAt(end) === '\t') end++;
  return end - start;
}
