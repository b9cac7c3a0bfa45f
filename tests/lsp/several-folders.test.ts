import { expect, test } from 'vitest';
import { capabilities, startServer } from './server.ts';

/** Two folders with files of the same name, side by side in one window. */
const files = {
  'one/kinds.curette': 'kind cloth "cloth" is material { }\n',
  'one/main.curette': 'use kinds\nkind rag "rag" is cloth { }\n',
  'two/kinds.curette': 'kind paper "paper" is material { }\n',
  'two/main.curette': 'use kinds\nkind rag "rag" is cloth { }\n',
  'two/astray.curette': 'use ../one/kinds\n',
};
const text = files['one/main.curette'];
const codes = (list: readonly { readonly code?: string | number | undefined }[]) => list.map(({ code }) => code);

test('each file uses what lies in its own folder', async () => {
  const server = await startServer({ files, folders: ['one', 'two'] });
  const [one, two] = [server.told(server.uri('one/main.curette')), server.told(server.uri('two/main.curette'))];
  server.open(server.uri('one/main.curette'), text);
  server.open(server.uri('two/main.curette'), text);
  expect(codes(await one)).toEqual([]);
  expect(codes(await two)).toContain('unknown_kind');
  await server.stop();
});

test('no use leads from one folder into another', async () => {
  const server = await startServer({ files, folders: ['one', 'two'] });
  const told = server.told(server.uri('two/astray.curette'));
  server.open(server.uri('two/astray.curette'), files['two/astray.curette']);
  expect(codes(await told)).toEqual(['use_outside']);
  await server.stop();
});

test('symbols are found in all folders', async () => {
  const server = await startServer({ files, folders: ['one', 'two'] });
  const found = await server.connection.sendRequest<{ location: { uri: string } }[]>('workspace/symbol', {
    query: 'rag',
  });
  const own = found.map(({ location }) => location.uri).filter((uri) => uri.startsWith('file:'));
  expect(own.sort()).toEqual([server.uri('one/main.curette'), server.uri('two/main.curette')]);
  await server.stop();
});

test('a folder that is added is checked, and one that goes takes its problems along', async () => {
  const server = await startServer({ files, folders: ['one'] });
  const two = { uri: server.uri('two'), name: 'two' };
  const change = (event: { added: (typeof two)[]; removed: (typeof two)[] }) =>
    void server.connection.sendNotification('workspace/didChangeWorkspaceFolders', { event });
  const address = server.uri('two/main.curette');
  const come = server.told(address);
  change({ added: [two], removed: [] });
  expect(codes(await come)).toContain('unknown_kind');
  const gone = server.told(address);
  change({ added: [], removed: [two] });
  expect(await gone).toEqual([]);
  await server.stop();
});

test('settings count for their own folder only', async () => {
  const bad = { ...files, 'two/curette.json': '{ "no such": 1 }\n' };
  const server = await startServer({ files: bad, folders: ['one', 'two'] });
  const told = server.told(server.uri('two/curette.json'));
  server.open(server.uri('two/main.curette'), text);
  expect((await told).length).toBeGreaterThan(0);
  expect(server.reports.filter(({ uri }) => uri.includes('/one/curette.json'))).toEqual([]);
  await server.stop();
});

test('files that only the editor can read are known, until they go', async () => {
  const root = 'afar://office/notes';
  const server = await startServer({
    folders: [],
    capabilities,
    initializationOptions: {
      files: [{ uri: `${root}/kinds.curette`, content: { type: 'text', text: files['one/kinds.curette'] } }],
    },
  });
  const event = { added: [{ uri: root, name: 'notes' }], removed: [] };
  void server.connection.sendNotification('workspace/didChangeWorkspaceFolders', { event });
  const uri = `${root}/main.curette`;
  const told = server.told(uri);
  server.open(uri, text);
  expect(codes(await told)).toEqual([]);
  const broken = server.told(uri, ({ diagnostics }) => diagnostics.length > 0);
  void server.connection.sendNotification('curette/files', {
    files: [{ uri: `${root}/kinds.curette`, content: { type: 'absent' } }],
  });
  expect(codes(await broken)).toEqual(expect.arrayContaining(['unknown_kind']));
  // A message that is none is told, and the server goes on.
  void server.connection.sendNotification('curette/files', { files: 7 });
  const again = server.told(uri);
  server.change(uri, 2, [{ text: `${text}\n` }]);
  expect(codes(await again)).toContain('unknown_kind');
  expect(server.said()).toContain('files that the editor reads');
  await server.stop();
});
