import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  codeActions,
  codeLenses,
  completion,
  createWorkspace,
  definition,
  documentSymbols,
  hintTooltip,
  hover,
  inlayHints,
  lensTitle,
} from '@curette/server';
import { expect, test } from 'vitest';
import { TODAY } from '../../support/fixture.ts';

// Every protocol of the demo workspace, asked at many places, whole and half typed: an answer may be empty, never a failure.
const examples = join(import.meta.dirname, '../../../examples');
const files = readdirSync(examples, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.curette'));

const open = () =>
  createWorkspace(
    (id) => (files.includes(id) ? { type: 'bytes', bytes: readFileSync(join(examples, id)) } : { type: 'absent' }),
    () => TODAY,
  );

test('there are protocols to ask about', () => {
  expect(files.length).toBeGreaterThan(3);
});

test.each(files)('%s is asked about everywhere', (id) => {
  const workspace = open();
  const text = readFileSync(join(examples, id), 'utf8');
  workspace.open(id, text);
  let hovers = 0;
  let found = 0;
  for (let offset = 0; offset <= text.length; offset += 5) {
    const told = hover(workspace, id, offset);
    if (told) {
      hovers++;
      expect(told.start).toBeLessThanOrEqual(offset);
      expect(told.end).toBeGreaterThanOrEqual(offset);
      expect(told.markdown).not.toBe('');
      expect(told.markdown).not.toMatch(/undefined|\[object/);
    }
    for (const target of definition(workspace, id, offset)?.targets ?? []) {
      found++;
      const { text: there } = workspace.snapshot().file(target.file) ?? { text: '' };
      expect(target.end).toBeLessThanOrEqual(there.length);
    }
    codeActions(workspace, id, offset, offset);
    completion(workspace, id, offset, () => files);
  }
  const hints = inlayHints(workspace, id, 0, text.length);
  for (const { at, label, statement } of hints) {
    expect(label).toMatch(/^begins (from )?\d\S*( \S+)* in$/);
    expect(text.slice(at)).toMatch(/^\s*(\}|\/\/|\n|$)/);
    expect(hintTooltip(workspace, id, statement)).not.toMatch(/undefined|NaN|Infinity/);
  }
  for (const { statement } of codeLenses(workspace, id))
    expect(lensTitle(workspace, id, statement)).toMatch(/^In the chair (at least )?\d/);
  expect(hovers).toBeGreaterThan(20);
  expect(found).toBeGreaterThan(10);
  expect(documentSymbols(workspace, id).length).toBeGreaterThan(0);
});

test.each(files)('%s, each line typed half, is completed with words that go on from there', (id) => {
  const text = readFileSync(join(examples, id), 'utf8');
  const workspace = open();
  workspace.open(id, text);
  let lineStart = 0;
  let offered = 0;
  for (const line of text.split('\n')) {
    const end = lineStart + line.length;
    const half = lineStart + Math.ceil(line.length / 2);
    const rest = text.slice(half, end);
    workspace.change(id, [{ start: half, end, text: '' }]);
    const { typed, items } = completion(workspace, id, half, () => files);
    offered += items.length;
    expect(typed.end).toBe(half);
    expect(typed.start).toBeGreaterThanOrEqual(lineStart);
    expect(new Set(items.map(({ label }) => label)).size).toBe(items.length);
    workspace.change(id, [{ start: half, end: half, text: rest }]);
    lineStart = end + 1;
  }
  expect(offered).toBeGreaterThan(100);
});

test('nine in ten of the words that the demo protocols are written in would have been offered', () => {
  let offered = 0;
  let asked = 0;
  for (const id of files.filter((name) => !name.startsWith('drafts'))) {
    const text = readFileSync(join(examples, id), 'utf8');
    const workspace = open();
    workspace.open(id, text);
    let lineStart = 0;
    for (const line of text.split('\n')) {
      const end = lineStart + line.length;
      for (const { word, at } of wordsOf(line)) {
        const from = lineStart + at;
        const rest = text.slice(from, end);
        workspace.change(id, [{ start: from, end, text: '' }]);
        const { items } = completion(workspace, id, from, () => files);
        workspace.change(id, [{ start: from, end: from, text: rest }]);
        asked++;
        if (items.some(({ label }) => label === word || label.split(' ')[0] === word)) offered++;
      }
      lineStart = end + 1;
    }
  }
  process.stdout.write(`completion offers ${offered} of ${asked} words; the rest are names that are new there\n`);
  expect(asked).toBeGreaterThan(1000);
  expect(offered / asked).toBeGreaterThan(0.9);
});

/** Words of a line that are no text, no remark and stand alone. */
function wordsOf(line: string): { readonly word: string; readonly at: number }[] {
  const bare = line.replace(/\/\/.*/, '').replace(/"[^"]*"/g, (text) => ' '.repeat(text.length));
  return [...bare.matchAll(/(?<![^\s({:])[\p{L}_][\p{L}\d_]*(?=[\s,)}:]|$)/gu)].map((match) => ({
    word: match[0],
    at: match.index,
  }));
}
