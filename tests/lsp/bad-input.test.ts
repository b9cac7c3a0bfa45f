import { symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterEach, expect, test } from 'vitest';
import { type Server, startServer } from './server.ts';

let server: Server;
afterEach(async () => {
  expect(await server.stop()).toBe(0);
  expect(server.said()).not.toMatch(/rejection/i);
});

/** Whether it still does its work. */
async function stillAnswers(): Promise<void> {
  const uri = server.uri('last.curette');
  server.open(uri, 'bogus\n');
  expect((await server.told(uri)).length).toBeGreaterThan(0);
}

test('messages that make no sense are told, and change nothing', async () => {
  server = await startServer();
  const { connection } = server;
  const uri = server.uri('a.curette');
  server.open(uri, 'note "a"\n');
  await server.told(uri);
  await expect(connection.sendRequest('curette/preview', { uri: 5 })).rejects.toThrow();
  await expect(connection.sendRequest('curette/libraryText', null)).rejects.toThrow();
  await expect(connection.sendRequest('curette/nothing', {})).rejects.toMatchObject({ code: -32601 });
  await expect(connection.sendRequest('textDocument/hover', {})).rejects.toThrow();
  await connection.sendNotification('textDocument/didChange', {
    textDocument: { uri, version: 2 },
    contentChanges: [{}],
  });
  await connection.sendNotification('textDocument/didChange', null);
  await connection.sendNotification('textDocument/didOpen', { textDocument: {} });
  await connection.sendNotification('textDocument/didClose', {
    textDocument: { uri: server.uri('never-open.curette') },
  });
  server.change(server.uri('never-open.curette'), 2, [{ text: 'bogus' }]);
  await stillAnswers();
});

test('a range that is not in the text is drawn to its nearest place', async () => {
  server = await startServer();
  const uri = server.uri('a.curette');
  server.open(uri, 'note "a"\n');
  await server.told(uri);
  const far = { line: 9999, character: 9999 };
  server.change(uri, 2, [{ range: { start: far, end: far }, text: 'bogus\n' }]);
  const [problem] = await server.told(uri, ({ version }) => version === 2);
  expect(problem?.range.start).toEqual({ line: 1, character: 0 });
  server.change(uri, 3, [{ range: { start: { line: 1, character: 5 }, end: { line: 1, character: 0 } }, text: '' }]);
  expect(await server.told(uri, ({ version }) => version === 3)).toEqual([]);
});

test('a document of 5 MB is taken, and one beyond all measure is told to be', async () => {
  server = await startServer();
  const large = server.uri('large.curette');
  server.open(large, 'note "word word word word"\n'.repeat(200_000));
  expect(await server.told(large)).toEqual([]);
  const endless = server.uri('endless.curette');
  server.open(endless, 'x'.repeat(9 * 1024 * 1024));
  expect((await server.told(endless)).map(({ code }) => code)).toEqual(['unusable_file']);
  await stillAnswers();
});

test('ten thousand blocks within one another', async () => {
  server = await startServer();
  const uri = server.uri('deep.curette');
  server.open(uri, `${'protocol p {\n'.repeat(10_000)}`);
  expect((await server.told(uri)).length).toBeGreaterThan(0);
  await stillAnswers();
});

test('a file in use that is no text, or is a folder, is told where it is used', async () => {
  server = await startServer();
  server.write('scan.curette', new Uint8Array([0x50, 0x4b, 0x03, 0x04, 0xff, 0x00, 0xfe]));
  server.write('folder.curette/inner.txt', 'x');
  const uri = server.uri('a.curette');
  server.open(uri, 'use scan\nuse folder\n');
  expect((await server.told(uri)).map(({ code }) => code)).toEqual(['unusable_file', 'unusable_file']);
});

test('a file that uses itself, and two that use each other', async () => {
  server = await startServer({ files: { 'b.curette': 'use a\n' } });
  const uri = server.uri('a.curette');
  server.open(uri, 'use a\nuse b\n');
  const codes = (await server.told(uri)).map(({ code }) => code);
  expect(codes.filter((code) => code === 'use_cycle')).toHaveLength(2);
});

test('no link and no path leads out of the workspace', async () => {
  server = await startServer({
    files: { 'outside/secret.curette': 'kind secret is material\n', 'inside/note.txt': '' },
    folders: ['inside'],
  });
  symlinkSync(join(server.folder, 'outside/secret.curette'), join(server.folder, 'inside/link.curette'));
  const uri = server.uri('inside/a.curette');
  server.open(uri, 'use link\nuse ../outside/secret\n\nkind own is secret\n');
  const codes = (await server.told(uri)).map(({ code }) => code);
  expect(codes).toContain('unknown_kind');
  expect(codes).toContain('use_outside');
});

test('a file outside of every folder is worked on with its own folder around it', async () => {
  server = await startServer({
    files: { 'elsewhere/house.curette': 'kind tool is instrument\n', 'inside/note.txt': '' },
    folders: ['inside'],
  });
  const uri = server.uri('elsewhere/a.curette');
  server.open(uri, 'use house\n\nkind own is tool\n');
  expect(await server.told(uri)).toEqual([]);
});

test('of two folders neither sees into the other', async () => {
  server = await startServer({
    files: { 'one/house.curette': 'kind tool is instrument\n', 'two/house.curette': 'kind device is instrument\n' },
    folders: ['one', 'two'],
  });
  const uri = server.uri('two/a.curette');
  server.open(uri, 'use house\n\nkind own is device\n');
  expect(await server.told(uri)).toEqual([]);
  const climbing = server.uri('two/b.curette');
  server.open(climbing, 'use ../one/house\n');
  expect((await server.told(climbing)).map(({ code }) => code)).toEqual(['use_outside']);
});

test('unsaved documents are checked; folders that come and go are taken in', async () => {
  server = await startServer({ files: { 'one/house.curette': 'kind tool is instrument\n' }, folders: [] });
  server.open('untitled:Untitled-1', 'use std/oral\n\nkind own is nothing\n');
  expect((await server.told('untitled:Untitled-1')).map(({ code }) => code)).toContain('unknown_kind');
  const uri = server.uri('one/sub/a.curette');
  server.open(uri, 'use ../house\n');
  expect((await server.told(uri)).map(({ code }) => code)).toEqual(['use_outside']);
  await server.connection.sendNotification('workspace/didChangeWorkspaceFolders', {
    event: { added: [{ uri: pathToFileURL(join(server.folder, 'one')).href, name: 'one' }], removed: [] },
  });
  expect((await server.told(uri)).map(({ code }) => code)).not.toContain('use_outside');
});
