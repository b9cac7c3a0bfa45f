import { afterEach, describe, expect, test } from 'vitest';
import { CancellationTokenSource } from 'vscode-jsonrpc';
import type {
  ClientCapabilities,
  DocumentDiagnosticReport,
  WorkspaceDiagnosticReport,
  WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver-protocol';
import { capabilities, type Server, startServer } from './server.ts';

const bogus = 'bogus\n';
const tool = 'kind tool is instrument\n';

let server: Server;
afterEach(async () => {
  expect(await server.stop()).toBe(0);
  expect(server.said()).toBe('');
});

const codes = (list: readonly { readonly code?: string | number }[]) => list.map(({ code }) => code);
const pause = (ms: number) => new Promise((done) => setTimeout(done, ms));
/** Long enough for a few files to be looked at. */
const LOOKED = 2500;

describe('an editor that is told', () => {
  test('is told of files that nobody has opened', async () => {
    server = await startServer({ files: { 'deep/down/a.curette': bogus, 'fine.curette': 'note "x"\n' } });
    expect(codes(await server.told(server.uri('deep/down/a.curette')))).toEqual(['misplaced_line']);
    expect(server.reports.map(({ uri }) => uri)).not.toContain(server.uri('fine.curette'));
  });

  test('not of hidden folders and of the packages of others', async () => {
    server = await startServer({
      files: { '.git/a.curette': bogus, 'node_modules/b/a.curette': bogus, 'a.curette': bogus },
    });
    await server.told(server.uri('a.curette'));
    await pause(300);
    expect(new Set(server.reports.map(({ uri }) => uri))).toEqual(new Set([server.uri('a.curette')]));
  });

  test('of a file that uses another, when that one changes in the editor', async () => {
    server = await startServer({ files: { 'house.curette': tool, 'a.curette': 'use house\n\nkind own is device\n' } });
    const uri = server.uri('a.curette');
    expect(codes(await server.told(uri))).toContain('unknown_kind');
    server.open(server.uri('house.curette'), 'kind device is instrument\n');
    expect(await server.told(uri)).toEqual([]);
    server.close(server.uri('house.curette'));
    expect(codes(await server.told(uri))).toContain('unknown_kind');
  });

  test('of a file that comes, changes and goes', async () => {
    server = await startServer({ files: { 'a.curette': 'use house\n\nkind own is tool\n' } });
    const uri = server.uri('a.curette');
    expect(codes(await server.told(uri))).toContain('missing_file');
    server.write('house.curette', tool);
    server.touched('house.curette');
    expect(await server.told(uri)).toEqual([]);
    server.write('a.curette', bogus);
    server.touched('a.curette');
    expect(codes(await server.told(uri))).toEqual(['misplaced_line']);
    server.write('a.curette', undefined);
    server.touched('a.curette');
    expect(await server.told(uri)).toEqual([]);
  });

  test('of a document as it is on disk, once it is closed', async () => {
    server = await startServer({ files: { 'a.curette': bogus } });
    const uri = server.uri('a.curette');
    await server.told(uri);
    server.open(uri, 'note "mended"\n');
    expect(await server.told(uri, ({ version }) => version === 1)).toEqual([]);
    server.close(uri);
    expect(codes(await server.told(uri, ({ diagnostics }) => diagnostics.length > 0))).toEqual(['misplaced_line']);
  });

  test('of settings as well', async () => {
    server = await startServer({ files: { 'sub/curette.json': '{ "closd": 1 }' } });
    expect(codes(await server.told(server.uri('sub/curette.json')))).toEqual(['bad_settings']);
  });

  test('only of what is open, where that is asked for', async () => {
    server = await startServer({
      files: { 'a.curette': bogus, 'curette.json': '{ "closd": 1 }' },
      initializationOptions: { checkWorkspace: false },
    });
    const open = server.uri('b.curette');
    server.open(open, bogus);
    // What is wrong in the settings of what is open is told all the same.
    expect(codes(await server.told(server.uri('curette.json')))).toEqual(['bad_settings']);
    await pause(LOOKED);
    expect(server.reports.map(({ uri }) => uri)).not.toContain(server.uri('a.curette'));
    server.close(open);
    expect(await server.told(server.uri('curette.json'))).toEqual([]);
  });

  test('how far the reading of many files has come, and may stop it', async () => {
    const files = Object.fromEntries(Array.from({ length: 60 }, (_, i) => [`f${i}.curette`, bogus]));
    server = await startServer({ files, capabilities: { ...capabilities, window: { workDoneProgress: true } } });
    const progress: { kind: string; message?: string; cancellable?: boolean }[] = [];
    let token: unknown;
    server.connection.onNotification('$/progress', (params: { token: unknown; value: (typeof progress)[number] }) => {
      token = params.token;
      progress.push(params.value);
      if (params.value.kind === 'report' && progress.length === 3)
        void server.connection.sendNotification('window/workDoneProgress/cancel', { token });
    });
    while (progress.at(-1)?.kind !== 'end') await pause(50);
    expect(progress[0]).toMatchObject({ kind: 'begin', cancellable: true, message: '60 files' });
    expect(server.reports.length).toBeLessThan(60);
  });
});

describe('an editor that asks', () => {
  const asking: ClientCapabilities = {
    workspace: { workspaceFolders: true, diagnostics: { refreshSupport: true } },
    textDocument: { diagnostic: { relatedDocumentSupport: true } },
  };
  const start = async (files: Record<string, string>, initializationOptions?: unknown) => {
    server = await startServer({ files, capabilities: asking, initializationOptions });
    return server;
  };
  const report = (uri: string, previousResultId?: string) =>
    server.connection.sendRequest<DocumentDiagnosticReport>('textDocument/diagnostic', {
      textDocument: { uri },
      previousResultId,
    });
  const everywhere = (previousResultIds: readonly { uri: string; value: string }[] = [], more: object = {}) =>
    server.connection.sendRequest<WorkspaceDiagnosticReport>('workspace/diagnostic', { previousResultIds, ...more });

  test('is told that nothing has changed', async () => {
    await start({});
    const uri = server.uri('a.curette');
    server.open(uri, bogus);
    const first = await report(uri);
    expect(first).toMatchObject({ kind: 'full', resultId: expect.any(String) });
    expect(await report(uri, first.resultId)).toMatchObject({ kind: 'unchanged', resultId: first.resultId });
    server.change(uri, 2, [{ text: 'note "x"\n' }]);
    expect(await report(uri, first.resultId)).toMatchObject({ kind: 'full', items: [] });
  });

  test('gets what is wrong in the settings along with a document', async () => {
    await start({ 'curette.json': '{ "closd": 1 }' });
    const uri = server.uri('a.curette');
    server.open(uri, 'note "x"\n');
    const answer = await report(uri);
    expect(answer.relatedDocuments?.[server.uri('curette.json')]).toMatchObject({
      kind: 'full',
      items: [{ code: 'bad_settings' }],
    });
  });

  test('gets the problems of every file, open or not, settings too', async () => {
    await start({
      'a.curette': bogus,
      'b.curette': bogus,
      'c.curette': 'note "x"\n',
      'curette.json': '{ "closd": 1 }',
    });
    server.open(server.uri('b.curette'), 'note "mended"\n', 7);
    const { items } = await everywhere();
    const found = Object.fromEntries(
      items.map((item) => [item.uri, [item.version, item.kind === 'full' ? codes(item.items) : []]]),
    );
    expect(found).toEqual({
      [server.uri('a.curette')]: [null, ['misplaced_line']],
      [server.uri('b.curette')]: [7, []],
      [server.uri('c.curette')]: [null, []],
      [server.uri('curette.json')]: [null, ['bad_settings']],
    });
  });

  test('gets them as they are found, and afterwards only what has changed', async () => {
    await start({ 'a.curette': bogus, 'b.curette': bogus });
    const parts: WorkspaceDocumentDiagnosticReport[] = [];
    server.connection.onNotification(
      '$/progress',
      ({ token, value }: { token: unknown; value: WorkspaceDiagnosticReport }) => {
        if (token === 'parts') parts.push(...value.items);
      },
    );
    expect((await everywhere([], { partialResultToken: 'parts' })).items).toEqual([]);
    expect(parts.map(({ kind }) => kind)).toEqual(['full', 'full']);
    const before = parts.map(({ uri, resultId }) => ({ uri, value: resultId ?? '' }));
    server.write('a.curette', 'note "x"\n');
    server.touched('a.curette');
    server.write('b.curette', undefined);
    server.touched('b.curette');
    const { items } = await everywhere(before);
    expect(items).toMatchObject([
      { uri: server.uri('a.curette'), kind: 'full', items: [] },
      { uri: server.uri('b.curette'), kind: 'full', items: [] },
    ]);
    const kept = items.map(({ uri, resultId }) => ({ uri, value: resultId ?? '' })).slice(0, 1);
    expect((await everywhere(kept)).items).toMatchObject([{ kind: 'unchanged' }]);
  });

  test('is told to ask again when a change in one file may show in another', async () => {
    await start({ 'house.curette': tool, 'a.curette': 'use house\n\nkind own is tool\n' });
    const asked = new Promise<void>((done) => {
      server.connection.onRequest('workspace/diagnostic/refresh', () => {
        done();
        return null;
      });
    });
    server.open(server.uri('house.curette'), tool);
    const first = await everywhere();
    expect(first.items.every((item) => item.kind === 'full' && item.items.length === 0)).toBe(true);
    server.change(server.uri('house.curette'), 2, [{ text: 'kind device is instrument\n' }]);
    await asked;
    const { items } = await everywhere();
    const own = items.find(({ uri }) => uri === server.uri('a.curette'));
    expect(own?.kind === 'full' && codes(own.items)).toContain('unknown_kind');
  });

  test('may take it back, and gets no more', async () => {
    await start(Object.fromEntries(Array.from({ length: 300 }, (_, i) => [`f${i}.curette`, bogus])));
    const source = new CancellationTokenSource();
    let parts = 0;
    server.connection.onNotification('$/progress', () => {
      parts += 1;
      if (parts === 5) source.cancel();
    });
    const answer = server.connection.sendRequest(
      'workspace/diagnostic',
      { previousResultIds: [], partialResultToken: 'parts' },
      source.token,
    );
    await answer.catch(() => undefined);
    await pause(300);
    expect(parts).toBeGreaterThanOrEqual(5);
    expect(parts).toBeLessThan(300);
  });

  test('gets only what is open, where that is asked for', async () => {
    await start({ 'a.curette': bogus }, { checkWorkspace: false });
    server.open(server.uri('b.curette'), bogus);
    expect((await everywhere()).items.map(({ uri }) => uri)).toEqual([server.uri('b.curette')]);
  });
});
