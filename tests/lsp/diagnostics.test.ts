import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type Server, startServer } from './server.ts';

const protocol = (step: string) => `use std/perioperative
use std/oral

protocol small "Small" {
  version 1.0.0
  status  draft
  owner   "Unit"
  given { patient : patient, site : tooth }
  team { surgeon }
  visit first "First" {
    ${step}
  }
}
`;

let server: Server;
beforeEach(async () => {
  server = await startServer({ initializationOptions: { problemPage: 'curette-problem:/{code}.md' } });
});
afterEach(async () => {
  expect(await server.stop()).toBe(0);
  expect(server.said()).toBe('');
});

test('problems come with their version, place, page and related places', async () => {
  const uri = server.uri('a.curette');
  const text = 'kind x is material\nkind x is material\n';
  server.open(uri, text, 7);
  const [problem] = await server.told(uri, (told) => told.version === 7);
  expect(problem).toMatchObject({
    code: 'duplicate_name',
    severity: 1,
    source: 'curette',
    codeDescription: { href: 'curette-problem:/duplicate_name.md' },
    range: { start: { line: 1, character: 5 }, end: { line: 1, character: 6 } },
    relatedInformation: [{ location: { uri, range: { start: { line: 0, character: 5 } } } }],
  });
});

test('a keystroke that breaks a word is told, and the one that mends it', async () => {
  const uri = server.uri('a.curette');
  server.open(uri, protocol('wait 10 min'));
  const before = (await server.told(uri)).length;
  const at = { line: 10, character: 15 };
  server.change(uri, 2, [{ range: { start: at, end: at }, text: 'x' }]);
  const broken = await server.told(uri, ({ version }) => version === 2);
  expect(broken.map(({ code }) => code)).toContain('unknown_unit');
  server.change(uri, 3, [{ range: { start: at, end: { ...at, character: 16 } }, text: '' }]);
  expect((await server.told(uri, ({ version }) => version === 3)).length).toBe(before);
});

test('several changes in one message are taken one after another', async () => {
  const uri = server.uri('a.curette');
  server.open(uri, 'note "a"\n');
  expect(await server.told(uri)).toEqual([]);
  const start = { line: 0, character: 0 };
  server.change(uri, 2, [
    { range: { start, end: start }, text: 'bo' },
    { range: { start: { line: 0, character: 2 }, end: { line: 0, character: 2 } }, text: 'gus\n' },
  ]);
  const [problem] = await server.told(uri, ({ version }) => version === 2);
  expect(problem?.range).toEqual({ start, end: { line: 0, character: 5 } });
  server.change(uri, 3, [{ text: 'note "whole"\n' }]);
  expect(await server.told(uri, ({ version }) => version === 3)).toEqual([]);
});

test('columns count as the editor counts them, behind signs of two units, too', async () => {
  const uri = server.uri('a.curette');
  server.open(uri, 'note "🦷🦷 é" bogus\r\nkind k is nothing\r\n');
  const told = await server.told(uri);
  expect(told.map(({ range }) => range)).toContainEqual({
    start: { line: 1, character: 10 },
    end: { line: 1, character: 17 },
  });
  const at = { line: 0, character: 8 };
  server.change(uri, 2, [{ range: { start: at, end: { line: 0, character: 10 } }, text: '' }]);
  const shorter = await server.told(uri, ({ version }) => version === 2);
  const ends = (list: typeof told) =>
    list.filter(({ range }) => range.start.line === 0).map(({ range }) => range.end.character);
  expect(ends(shorter)).toEqual(ends(told).map((end) => end - 2));
});

test('a burst of keystrokes ends with the problems of the last one', async () => {
  const uri = server.uri('a.curette');
  server.open(uri, 'note "a"\n');
  await server.told(uri);
  for (let version = 2; version <= 60; version++) {
    const at = { line: 0, character: 0 };
    server.change(uri, version, [{ range: { start: at, end: at }, text: 'x' }]);
  }
  const told = await server.told(uri, ({ version }) => version === 60);
  expect(told.length).toBeGreaterThan(0);
  expect(server.reports.length).toBeLessThan(60);
});

describe('other files', () => {
  test('a file in use is read from disk, and again when it changes', async () => {
    server.write('shared/house.curette', 'kind tool is instrument\n');
    const uri = server.uri('a.curette');
    server.open(uri, 'use shared/house\n\nkind own is tool\n');
    expect(await server.told(uri)).toEqual([]);
    server.write('shared/house.curette', 'kind device is instrument\n');
    server.touched('shared/house.curette');
    expect((await server.told(uri)).map(({ code }) => code)).toContain('unknown_kind');
    server.write('shared/house.curette', undefined);
    server.touched('shared/house.curette');
    expect((await server.told(uri)).map(({ code }) => code)).toContain('missing_file');
    server.write('shared/house.curette', 'kind tool is instrument\n');
    server.touched('shared/house.curette');
    expect(await server.told(uri)).toEqual([]);
  });

  test('what is typed into one is seen by the other at once', async () => {
    server.write('house.curette', 'kind tool is instrument\n');
    const house = server.uri('house.curette');
    const uri = server.uri('a.curette');
    server.open(uri, 'use house\n\nkind own is tool\n');
    expect(await server.told(uri)).toEqual([]);
    server.open(house, 'kind gadget is instrument\n');
    expect((await server.told(uri)).map(({ code }) => code)).toContain('unknown_kind');
    server.close(house);
    expect(await server.told(uri)).toEqual([]);
  });

  test('a closed document has no problems any more', async () => {
    const uri = server.uri('a.curette');
    server.open(uri, 'bogus\n');
    expect((await server.told(uri)).length).toBeGreaterThan(0);
    server.close(uri);
    expect(await server.told(uri)).toEqual([]);
  });
});
