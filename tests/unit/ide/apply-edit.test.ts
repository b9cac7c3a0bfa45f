import type { Body } from '@curette/grammar';
import { type Edit, replacementsOf } from '@curette/server';
import { describe, expect, test } from 'vitest';
import { readFixture, workspaceOf } from '../../support/fixture.ts';

/** The text after an edit; the statement meant is the innermost one around the cursor, or its block's owner. */
function applied(text: string, edit: (statement: number) => Edit): string | undefined {
  const fixture = readFixture(text.endsWith('\n') ? text : `${text}\n`);
  const workspace = workspaceOf(fixture);
  const file = workspace.snapshot().file('main.curette');
  if (!file || !fixture.cursor) throw new Error('a file with a cursor');
  const statement = innermost(file.tree.body, 0, fixture.cursor.start);
  const replacements = replacementsOf(workspace, [edit(statement)]);
  if (!replacements) return undefined;
  return [...replacements]
    .reverse()
    .reduce((now, { start, end, text }) => now.slice(0, start) + text + now.slice(end), file.text);
}

function innermost(body: Body, base: number, offset: number): number {
  let found = 0;
  body.items.forEach((item, i) => {
    const start = base + (body.offsets[i] ?? 0);
    if (offset < start || offset > start + item.length) return;
    found = item.id;
    if (item.body) found = innermost(item.body, start, offset) || found;
  });
  return found;
}

const file = 'main.curette';
const append =
  (...lines: string[]) =>
  (statement: number): Edit => ({ type: 'append', file, statement, lines });
const insert =
  (where: 'before' | 'after', ...lines: string[]) =>
  (statement: number): Edit => ({ type: 'insert', where, file, statement, lines });
const remove = (statement: number): Edit => ({ type: 'remove', file, statement });
const addUse = (path: string) => (): Edit => ({ type: 'add use', file, path });

describe('lines at the end of a block', () => {
  test('stand below the last one, indented as it is', () => {
    expect(applied('protocol p {\n  $0visit v {\n    wait 1 h\n  }\n}', append('wait 2 h'))).toBe(
      'protocol p {\n  visit v {\n    wait 1 h\n    wait 2 h\n  }\n}\n',
    );
  });

  test('fill an empty block', () => {
    expect(applied('protocol p {\n  $0visit v {\n  }\n}', append('wait 2 h', 'wait 3 h'))).toBe(
      'protocol p {\n  visit v {\n    wait 2 h\n    wait 3 h\n  }\n}\n',
    );
    expect(applied('protocol p {\n  $0visit v { }\n}', append('wait 2 h'))).toBe(
      'protocol p {\n  visit v {\n    wait 2 h\n  }\n}\n',
    );
  });

  test('stand below remarks in a block that has nothing else', () => {
    expect(applied('protocol p {\n  $0visit v {\n    // later\n  }\n}', append('wait 2 h'))).toBe(
      'protocol p {\n  visit v {\n    // later\n    wait 2 h\n  }\n}\n',
    );
  });

  test('make the block that is not there', () => {
    expect(applied('protocol p {\n  visit v {\n    $0decide wall\n  }\n}', append('option lost { }'))).toBe(
      'protocol p {\n  visit v {\n    decide wall {\n      option lost { }\n    }\n  }\n}\n',
    );
  });

  test('in a list on one line, behind a comma', () => {
    expect(applied('protocol p {\n  $0team { surgeon }\n}', append('assistant'))).toBe(
      'protocol p {\n  team { surgeon, assistant }\n}\n',
    );
    expect(applied('protocol p {\n  $0team { }\n}', append('assistant'))).toBe(
      'protocol p {\n  team { assistant }\n}\n',
    );
  });

  test('in a list over several lines, on a line of their own', () => {
    expect(applied('protocol p {\n  $0team {\n    surgeon, resident\n  }\n}', append('assistant'))).toBe(
      'protocol p {\n  team {\n    surgeon, resident\n    assistant\n  }\n}\n',
    );
  });

  test('keep a remark behind the last one where it is', () => {
    expect(applied('protocol p {\n  $0visit v {\n    wait 1 h // so\n  }\n}', append('wait 2 h'))).toBe(
      'protocol p {\n  visit v {\n    wait 1 h // so\n    wait 2 h\n  }\n}\n',
    );
  });
});

describe('lines before or after another', () => {
  test('below its block and its remarks', () => {
    expect(
      applied('protocol p {\n  visit v {\n    $0wait 1 h // so\n    wait 3 h\n  }\n}', insert('after', 'wait 2 h')),
    ).toBe('protocol p {\n  visit v {\n    wait 1 h // so\n    wait 2 h\n    wait 3 h\n  }\n}\n');
  });

  test('above its doc comment', () => {
    expect(applied('/// About k.\n$0kind k is material', insert('before', 'note "x"'))).toBe(
      'note "x"\n/// About k.\nkind k is material\n',
    );
  });

  test('on the last line of a file that has no line end', () => {
    const workspace = workspaceOf(readFixture('note "a"\n'));
    workspace.open(file, 'note "a"');
    const statement = workspace.snapshot().file(file)?.tree.body.items[0]?.id ?? 0;
    expect(replacementsOf(workspace, [insert('after', 'note "b"')(statement)])).toEqual([
      { file, start: 8, end: 8, text: '\nnote "b"' },
    ]);
  });
});

describe('a line taken away', () => {
  test('goes with its remark and its line end', () => {
    expect(applied('use std/oral\n$0use std/wound // old\n\nnote "x"', remove)).toBe('use std/oral\n\nnote "x"\n');
  });

  test('goes from a list with one comma', () => {
    expect(applied('protocol p {\n  team { $0surgeon, resident }\n}', remove)).toBe(
      'protocol p {\n  team { resident }\n}\n',
    );
    expect(applied('protocol p {\n  team { surgeon, $0resident }\n}', remove)).toBe(
      'protocol p {\n  team { surgeon }\n}\n',
    );
  });
});

describe('a file to be used', () => {
  test('stands below the last one', () => {
    expect(applied('use std/oral\nuse std/wound // why\n\n$0note "x"', addUse('std/skin'))).toBe(
      'use std/oral\nuse std/wound // why\nuse std/skin\n\nnote "x"\n',
    );
  });

  test('is the first, at the top, below the remarks there', () => {
    expect(applied('$0note "x"', addUse('std/skin'))).toBe('use std/skin\n\nnote "x"\n');
    expect(applied('// Ours.\n\n/// About k.\n$0kind k is material', addUse('std/skin'))).toBe(
      '// Ours.\n\nuse std/skin\n\n/// About k.\nkind k is material\n',
    );
    expect(applied('// Ours.\n$0note "x"', addUse('std/skin'))).toBe('// Ours.\n\nuse std/skin\n\nnote "x"\n');
  });

  test('is not added twice', () => {
    expect(applied('use std/skin\n\n$0note "x"', addUse('std/skin'))).toBe('use std/skin\n\nnote "x"\n');
  });
});

test('line ends stay as they are in the file', () => {
  const workspace = workspaceOf(readFixture('note "a"\n'));
  workspace.open(file, 'use std/oral\r\n\r\nnote "x"\r\n');
  expect(replacementsOf(workspace, [{ type: 'add use', file, path: 'std/skin' }])).toEqual([
    { file, start: 12, end: 12, text: '\r\nuse std/skin' },
  ]);
});

test('what stands in the shipped library is not changed, and what is gone can not be', () => {
  const workspace = workspaceOf(readFixture('note "a"\n'));
  expect(
    replacementsOf(workspace, [{ type: 'add use', file: 'library:std/oral.curette', path: 'std/skin' }]),
  ).toBeUndefined();
  expect(replacementsOf(workspace, [{ type: 'remove', file, statement: 999 }])).toBeUndefined();
});
