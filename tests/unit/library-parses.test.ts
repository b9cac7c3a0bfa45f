/** The shipped library and the demo workspace are read whole, and every declaration says in words what it is. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { forEachStatement, parse, type Statement, type SyntaxTree } from '@curette/grammar';
import { describe, expect, test } from 'vitest';

const root = join(import.meta.dirname, '../..');
const library = curetteFiles('shared/library');
const examples = curetteFiles('examples');

test('the library and the demo workspace are there', () => {
  expect(library).toContain('shared/library/core.curette');
  expect(examples).toContain('examples/protocols/grafted_socket.curette');
});

describe.each([...library, ...examples])('%s', (path) => {
  const text = readFileSync(join(root, path), 'utf8');
  const tree = parse(text);

  test('every line is read', () => {
    expect(flaws(tree, text)).toEqual([]);
  });

  test('every declaration has a comment that says what it is', () => {
    const bare = tree.body.items.filter(({ type, doc }) => type !== 'use' && (doc ?? '').trim() === '');
    expect(bare.map(headline)).toEqual([]);
  });

  test('lines fit a page and end where their words end', () => {
    const untidy = text
      .split('\n')
      .filter((line) => line.length > 112 || line !== line.trimEnd() || line.includes('\t'));
    expect(untidy).toEqual([]);
    expect(text.endsWith('\n') && !text.endsWith('\n\n')).toBe(true);
  });

  function headline({ head, type }: Statement, at: number): string {
    const start = tree.body.offsets[at] ?? 0;
    return `${type}: ${text.slice(start + head.start, start + head.end)}`;
  }
});

/** Each flaw as `line: words underlined (what would fit)`. */
function flaws(tree: SyntaxTree, text: string): string[] {
  const found = tree.flaws.map((flaw) => ({ ...flaw, from: 0 }));
  forEachStatement(tree, (statement, start) => {
    found.push(...statement.flaws.map((flaw) => ({ ...flaw, from: start })));
    if (statement.type === 'unreadable' && statement.flaws.length === 0)
      found.push({ code: 'unreadable', expected: undefined, start: 0, end: statement.length, from: start });
  });
  return found.map(({ code, expected, start, end, from }) => {
    const line = text.slice(0, from + start).split('\n').length;
    return `${line}: ${code} "${text.slice(from + start, from + end)}" (${expected ?? ''})`;
  });
}

/** Paths from the project's root. */
function curetteFiles(folder: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.curette'))
    .map((name) => `${folder}/${name.replaceAll('\\', '/')}`)
    .sort();
}
