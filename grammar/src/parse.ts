/** A whole file, read from nothing. */
import { layout } from './layout.ts';
import { lex } from './lex.ts';
import { type Owner, Reader } from './read.ts';
import type { SyntaxTree } from './tree.ts';

/**
 * Never throws: whatever the text, there is a tree, and what could not be read is in its flaws.
 * @param firstId the number the first statement gets
 */
export function parse(text: string, firstId = 1): SyntaxTree {
  const reader = new Reader(text, firstId);
  const file: Owner = { statement: undefined, start: 0, container: 'file', open: -1, items: [], offsets: [] };
  const lexed = lex(text);
  layout(lexed, { owner: file, container: 'file', depth: 0, indent: indentAt(text, 0) }, reader);
  return {
    length: text.length,
    body: { container: 'file', open: -1, close: undefined, items: file.items, offsets: file.offsets },
    flaws: reader.strays,
    sound: lexed.strayCloses + lexed.unclosed === 0 && !reader.tooDeep,
    nextId: reader.nextId,
  };
}

/** How far the line that `at` stands on is indented: its leading white space, in characters. */
export function indentAt(text: string, at: number): number {
  let start = at;
  while (start > 0 && text.charAt(start - 1) !== '\n' && text.charAt(start - 1) !== '\r') start--;
  let end = start;
  while (text.charAt(end) === ' ' || text.charAt(end) === '\t') end++;
  return end - start;
}
