import { expect, test } from 'vitest';
import { startServer } from './server.ts';

test('says what it can do, and ends in good order', async () => {
  const server = await startServer();
  expect(server.initialized.capabilities).toMatchObject({
    positionEncoding: 'utf-16',
    textDocumentSync: { openClose: true, change: 2 },
    hoverProvider: true,
    definitionProvider: true,
    documentSymbolProvider: true,
    codeActionProvider: { codeActionKinds: ['quickfix', 'source.fixAll.curette'] },
    inlayHintProvider: { resolveProvider: true },
    codeLensProvider: { resolveProvider: true },
  });
  expect(server.initialized.capabilities.diagnosticProvider).toBeUndefined();
  expect(await server.stop()).toBe(0);
  expect(server.said()).toBe('');
});

test('an editor that only asks is answered when it asks', async () => {
  const server = await startServer({ capabilities: { textDocument: { diagnostic: {} } } });
  expect(server.initialized.capabilities.diagnosticProvider).toMatchObject({
    interFileDependencies: true,
    workspaceDiagnostics: true,
  });
  const uri = server.uri('a.curette');
  server.open(uri, 'protocol a "A" {\n  bogus\n}\n');
  const report = await server.connection.sendRequest<{ kind: string; items: unknown[] }>('textDocument/diagnostic', {
    textDocument: { uri },
  });
  expect(report.kind).toBe('full');
  expect(report.items.length).toBeGreaterThan(0);
  expect(server.reports).toEqual([]);
  await server.stop();
});

test('ends when the editor goes without a word', async () => {
  const server = await startServer();
  const ended = new Promise((done) => server.process.on('exit', done));
  server.process.stdin.end();
  await ended;
  expect(server.said()).not.toContain('rejection');
});

test('start options that cannot be read are told and left aside', async () => {
  const server = await startServer({ initializationOptions: { problemPage: 7 } });
  const uri = server.uri('a.curette');
  server.open(uri, 'bogus\n');
  const [problem] = await server.told(uri);
  expect(problem?.codeDescription).toBeUndefined();
  expect(server.said()).toContain('initializationOptions');
  await server.stop();
});
