import { afterEach, beforeEach, expect, test } from 'vitest';
import type { TextEdit } from 'vscode-languageserver-protocol';
import { type Server, startServer } from './server.ts';

const crooked = `kind a "A"{note "x"}
protocol p "P" {
    status draft
  visit v "V" {
   inject a 2 ml at b  // slowly
  lay   c on d
  }
}
`;

let server: Server;
beforeEach(async () => {
  server = await startServer();
});
afterEach(async () => {
  expect(await server.stop()).toBe(0);
  expect(server.said()).toBe('');
});

const options = { tabSize: 8, insertSpaces: false };

function ask(method: string, uri: string, params: object = {}): Promise<TextEdit[]> {
  return server.connection.sendRequest(`textDocument/${method}`, { textDocument: { uri }, options, ...params });
}

function applied(text: string, edits: readonly TextEdit[]): string {
  const starts = [0, ...[...text.matchAll(/\n/g)].map(({ index }) => index + 1)];
  const offset = ({ line, character }: TextEdit['range']['start']) => (starts[line] ?? text.length) + character;
  return edits.reduceRight(
    (result, { range, newText }) => result.slice(0, offset(range.start)) + newText + result.slice(offset(range.end)),
    text,
  );
}

test('the server says that it can lay out', () => {
  expect(server.initialized.capabilities).toMatchObject({
    documentFormattingProvider: true,
    documentRangeFormattingProvider: true,
    documentOnTypeFormattingProvider: { firstTriggerCharacter: '}', moreTriggerCharacter: ['\n'] },
  });
});

test('a document, by edits of what changes and nothing else, whatever the editor indents by', async () => {
  const uri = server.uri('a.curette');
  server.open(uri, crooked);
  const edits = await ask('formatting', uri);
  expect(applied(crooked, edits)).toBe(`kind a "A" { note "x" }
protocol p "P" {
  status draft
  visit v "V" {
    inject a 2 mL at b // slowly
    lay c on d
  }
}
`);
  expect(edits.every(({ range }) => range.start.line === range.end.line)).toBe(true);
  server.change(uri, 2, [{ text: applied(crooked, edits) }]);
  expect(await ask('formatting', uri)).toEqual([]);
});

test('line ends of another system stay', async () => {
  const uri = server.uri('a.curette');
  const text = crooked.replaceAll('\n', '\r\n');
  server.open(uri, text);
  const edits = await ask('formatting', uri);
  expect(edits.length).toBeGreaterThan(3);
  expect(applied(text, edits).replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
});

test('straight after a keystroke', async () => {
  const uri = server.uri('a.curette');
  server.open(uri, 'kind a "A" {  }\n');
  const at = { line: 0, character: 12 };
  server.change(uri, 2, [{ range: { start: at, end: at }, text: 'note   "x"' }]);
  expect(applied('kind a "A" {note   "x"  }\n', await ask('formatting', uri))).toBe(
    'kind a "A" {note   "x"  }\n'.replace('{note   "x"  }', '{ note "x" }'),
  );
});

test('nothing in a document with something that can not be read', async () => {
  const uri = server.uri('a.curette');
  server.open(uri, crooked.replace('lay', '== lay'));
  expect(await ask('formatting', uri)).toEqual([]);
});

test('nothing in a page of the library, or in what is not there', async () => {
  const uri = 'curette-library:/std/grafting.curette';
  server.open(uri, crooked);
  expect(await ask('formatting', uri)).toEqual([]);
  expect(await ask('formatting', server.uri('nowhere.curette'))).toEqual([]);
});

test('a part: the statements that it touches', async () => {
  const uri = server.uri('a.curette');
  server.open(uri, crooked);
  const range = { start: { line: 4, character: 8 }, end: { line: 4, character: 9 } };
  expect(applied(crooked, await ask('rangeFormatting', uri, { range }))).toBe(
    crooked.replace('   inject a 2 ml at b  //', '    inject a 2 mL at b //'),
  );
});

test('a new line is indented by its block, a closing brace stands below its head', async () => {
  const uri = server.uri('a.curette');
  const text = 'protocol p {\n  visit v {\n    wait 5 min\n\n    }\n}\n';
  server.open(uri, text);
  const line = await ask('onTypeFormatting', uri, { position: { line: 3, character: 0 }, ch: '\n' });
  expect(line).toEqual([
    { range: { start: { line: 3, character: 0 }, end: { line: 3, character: 0 } }, newText: '    ' },
  ]);
  const brace = await ask('onTypeFormatting', uri, { position: { line: 4, character: 5 }, ch: '}' });
  expect(applied(text, brace)).toBe(text.replace('    }\n}', '  }\n}'));
});
