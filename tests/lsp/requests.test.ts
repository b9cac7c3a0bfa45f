import { afterEach, beforeEach, expect, test } from 'vitest';
import type { CodeAction, CompletionItem, DocumentSymbol, Hover, LocationLink } from 'vscode-languageserver-protocol';
import { type Server, startServer } from './server.ts';

const text = `use std/grafting

/// Own stock.
allograft own_graft "Own" {
  particle 200..400 um source common_practice
  mineralised yes
  soak 10..60 min source common_practice
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

function ask<Answer>(method: string, uri: string, line: number, character: number): Promise<Answer> {
  return server.connection.sendRequest<Answer>(method, { textDocument: { uri }, position: { line, character } });
}

test('hover, in markdown, with the words it is about', async () => {
  const uri = server.uri('a.curette');
  server.open(uri, text);
  const hover = await ask<Hover>('textDocument/hover', uri, 3, 12);
  expect(hover.contents).toMatchObject({ kind: 'markdown', value: expect.stringContaining('**Own**') });
  expect(hover.range).toEqual({ start: { line: 3, character: 10 }, end: { line: 3, character: 19 } });
  expect(await ask('textDocument/hover', uri, 1, 0)).toBeNull();
});

test('completion straight after a keystroke', async () => {
  const uri = server.uri('a.curette');
  server.open(uri, text);
  const at = { line: 5, character: 17 };
  server.change(uri, 2, [{ range: { start: at, end: at }, text: '\n  ' }]);
  const items = await ask<CompletionItem[]>('textDocument/completion', uri, 6, 2);
  expect(items.map(({ label }) => label)).toContain('contraindicated when');
  expect(items.map(({ label }) => label)).not.toContain('soak');
});

test('a definition in the shipped library, whose text can be asked for', async () => {
  const uri = server.uri('a.curette');
  server.open(uri, text);
  const [link] = await ask<LocationLink[]>('textDocument/definition', uri, 3, 2);
  expect(link?.targetUri).toBe('curette-library:/std/grafting.curette');
  const library = await server.connection.sendRequest<{ text: string }>('curette/libraryText', {
    uri: link?.targetUri,
  });
  const line = library.text.split('\n')[link?.targetSelectionRange.start.line ?? 0];
  expect(line).toMatch(/^kind allograft/);
});

test('a page of the library that is open answers as well', async () => {
  const address = 'curette-library:/std/grafting.curette';
  const { text: library } = await server.connection.sendRequest<{ text: string }>('curette/libraryText', {
    uri: address,
  });
  server.open(address, library);
  const line = library.split('\n').findIndex((one) => one.startsWith('kind allograft'));
  const hover = await ask<Hover>('textDocument/hover', address, line, 6);
  expect(hover.contents).toMatchObject({ value: expect.stringContaining('**allograft**') });
});

test('the outline', async () => {
  const uri = server.uri('a.curette');
  server.open(uri, text);
  const symbols = await server.connection.sendRequest<DocumentSymbol[]>('textDocument/documentSymbol', {
    textDocument: { uri },
  });
  expect(symbols.map(({ name }) => name)).toEqual(['own_graft']);
});

test('a quick fix says which version it is for, and which problem it mends', async () => {
  const uri = server.uri('a.curette');
  server.open(uri, 'kind own is alograft\n\nuse std/grafting\n', 3);
  const diagnostics = await server.told(uri);
  const actions = await server.connection.sendRequest<CodeAction[]>('textDocument/codeAction', {
    textDocument: { uri },
    range: diagnostics[0]?.range,
    context: { diagnostics },
  });
  expect(actions[0]).toMatchObject({
    title: 'Change to "allograft"',
    kind: 'quickfix',
    isPreferred: true,
    edit: { documentChanges: [{ textDocument: { uri, version: 3 }, edits: [{ newText: 'allograft' }] }] },
  });
  expect(actions[0]?.diagnostics).toHaveLength(1);
});

test('pages of problems and of rules', async () => {
  const page = (code: string) =>
    server.connection.sendRequest<{ markdown: string | null }>('curette/problemPage', { code });
  expect((await page('unknown_unit')).markdown).toMatch(/^# /);
  expect((await page('nonsense')).markdown).toBeNull();
  expect((await page('__proto__')).markdown).toBeNull();
  const uri = server.uri('a.curette');
  server.open(
    uri,
    'kind k is material\nrule own "Own rule" {\n  every k declares x\n  severity error\n  why "So"\n}\n',
  );
  await server.told(uri);
  expect((await page('own')).markdown).toMatch(/^# Own rule/);
});

test('a request that is taken back before its turn is not answered with work', async () => {
  const uri = server.uri('a.curette');
  server.open(uri, `${'note "x"\n'.repeat(20_000)}`);
  const { CancellationTokenSource } = await import('vscode-jsonrpc');
  const source = new CancellationTokenSource();
  const answer = server.connection.sendRequest('textDocument/documentSymbol', { textDocument: { uri } }, source.token);
  source.cancel();
  await expect(answer).rejects.toMatchObject({ code: -32800 });
});
