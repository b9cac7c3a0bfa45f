/** A whole file, read from nothing. */
import { layout } from './layout.ts';
import { lex } from './lex.ts';
import { type Owner, Reader } from './read.ts';
import type { SyntaxTree } from './tree.ts';

/** Never throws: whatever the text, there is a tree, and what could not be read is in its flaws. */
export function parse(text: string): SyntaxTree {
  const reader = new Reader(text, 1);
  const file: Owner = { statement: undefined, start: 0, container: 'file', open: -1, items: [], offsets: [] };
  layout(lex(text), { owner: file, container: 'file', depth: 0, indent: firstIndent(text) }, reader);
  return {
    length: text.length,
    body: { container: 'file', open: -1, close: undefined, items: file.items, offsets: file.offsets },
    flaws: reader.strays,
    nextId: reader.nextId,
  };
}

function firstIndent(text: string): number {
  return (
    text.length - text.trimStart().length - 1 - text.slice(0, text.length - text.trimStart().length).lastIndexOf('\n')
  );
}
