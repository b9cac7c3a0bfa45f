import { mkdirSync, renameSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import type {
  CallHierarchyIncomingCall,
  CallHierarchyItem,
  DocumentHighlight,
  Location,
  SymbolInformation,
  TextDocumentEdit,
  TypeHierarchyItem,
  WorkspaceEdit,
} from 'vscode-languageserver-protocol';
import { type Server, startServer } from './server.ts';

const policy = `kind filler "filler" is material {
  states dry -> wetted
}
action wet "Wet" (filler f) {
  makes f wetted
  takes 1 min
}
procedure prepare "Prepare" (filler f) {
  wet f
}
material granules "Granules" is filler
`;

const protocol = (name: string, use: string) => `use ${use}

protocol ${name} "P" {
  version 1.0.0
  status  draft
  owner   "Unit"
  team { surgeon }
  materials {
    grain : granules
  }
  visit first "First" {
    prepare grain by surgeon
  }
}
`;

let server: Server;
beforeEach(async () => {
  server = await startServer({
    files: {
      'policy.curette': policy,
      'protocols/a.curette': protocol('a', '../policy'),
      'protocols/b.curette': protocol('b', '../policy'),
      'aside.curette': 'kind granules is material\n',
    },
  });
});
afterEach(async () => {
  expect(await server.stop()).toBe(0);
  expect(server.said()).toBe('');
});

function ask<Answer>(method: string, path: string, words: string, more: object = {}): Promise<Answer> {
  const text = texts.get(path) ?? '';
  const before = text.slice(0, text.indexOf(words)).split('\n');
  const position = { line: before.length - 1, character: before.at(-1)?.length ?? 0 };
  return server.connection.sendRequest<Answer>(method, { textDocument: { uri: server.uri(path) }, position, ...more });
}

const texts = new Map([
  ['policy.curette', policy],
  ['protocols/a.curette', protocol('a', '../policy')],
]);

const opened = (path: string, version = 1) => server.open(server.uri(path), texts.get(path) ?? '', version);
const short = ({ uri, range }: Location) => `${uri.slice(server.uri('').length + 1)}:${range.start.line}`;

test('references are found in files that are not open and that this file does not reach', async () => {
  opened('policy.curette');
  const context = { includeDeclaration: false };
  const found = await ask<Location[]>('textDocument/references', 'policy.curette', 'granules', { context });
  expect(found.map(short).sort()).toEqual(['protocols/a.curette:8', 'protocols/b.curette:8']);
});

test('a file that comes, changes or goes on disk is known', async () => {
  opened('policy.curette');
  const find = async () => {
    const context = { includeDeclaration: false };
    const found = await ask<Location[]>('textDocument/references', 'policy.curette', 'granules', { context });
    return found.map(short).sort();
  };
  expect(await find()).toHaveLength(2);
  server.write('new/c.curette', protocol('c', '../policy'));
  server.write('protocols/b.curette', undefined);
  server.touched('new/c.curette', 'protocols/b.curette');
  expect(await find()).toEqual(['new/c.curette:8', 'protocols/a.curette:8']);
  server.write('new/c.curette', 'note "nothing"\n');
  server.touched('new/c.curette');
  expect(await find()).toEqual(['protocols/a.curette:8']);
});

test('what is open counts as it is there, not as it is on disk', async () => {
  opened('policy.curette');
  server.open(server.uri('protocols/b.curette'), 'note "emptied"\n');
  const context = { includeDeclaration: true };
  const found = await ask<Location[]>('textDocument/references', 'policy.curette', 'granules', { context });
  expect(found.map(short).sort()).toEqual(['policy.curette:10', 'protocols/a.curette:8']);
  server.close(server.uri('protocols/b.curette'));
  const again = await ask<Location[]>('textDocument/references', 'policy.curette', 'granules', { context });
  expect(again).toHaveLength(3);
});

test('a rename is one edit over all files, and says which version of an open one it is for', async () => {
  opened('policy.curette', 7);
  expect(await ask('textDocument/prepareRename', 'policy.curette', 'granules')).toMatchObject({
    placeholder: 'granules',
    range: { start: { line: 10, character: 9 }, end: { line: 10, character: 17 } },
  });
  const edit = await ask<WorkspaceEdit>('textDocument/rename', 'policy.curette', 'granules', { newName: 'chips' });
  const edits = (edit.documentChanges ?? []) as TextDocumentEdit[];
  expect(
    edits.map(({ textDocument, edits }) => [
      short({ uri: textDocument.uri, range: edits[0]?.range as Location['range'] }),
      textDocument.version,
    ]),
  ).toEqual(
    expect.arrayContaining([
      ['policy.curette:10', 7],
      ['protocols/a.curette:8', null],
      ['protocols/b.curette:8', null],
    ]),
  );
  expect(edits).toHaveLength(3);
});

test('a file that has changed on disk, of which nobody has told yet, is edited as it is', async () => {
  opened('policy.curette');
  await ask('textDocument/rename', 'policy.curette', 'granules', { newName: 'chips' });
  server.write('protocols/b.curette', `// one line more\n${protocol('b', '../policy')}`);
  server.write('protocols/new.curette', protocol('fresh', '../policy'));
  const edit = await ask<WorkspaceEdit>('textDocument/rename', 'policy.curette', 'granules', { newName: 'chips' });
  const edits = (edit.documentChanges ?? []) as TextDocumentEdit[];
  expect(
    edits
      .map(({ textDocument, edits }) => short({ uri: textDocument.uri, range: edits[0]?.range as Location['range'] }))
      .sort(),
  ).toEqual(['policy.curette:10', 'protocols/a.curette:8', 'protocols/b.curette:9', 'protocols/new.curette:8']);
});

test('a file that was missed before it came, of which nobody has told yet, is edited too', async () => {
  opened('policy.curette');
  server.open(server.uri('protocols/early.curette'), 'use late\n');
  await server.told(server.uri('protocols/early.curette'), ({ diagnostics }) => diagnostics.length > 0);
  server.write('protocols/late.curette', protocol('late', '../policy'));
  const edit = await ask<WorkspaceEdit>('textDocument/rename', 'policy.curette', 'granules', { newName: 'chips' });
  const edits = (edit.documentChanges ?? []) as TextDocumentEdit[];
  expect(edits.map(({ textDocument }) => textDocument.uri)).toContain(server.uri('protocols/late.curette'));
});

test('what cannot be renamed is refused with a reason', async () => {
  opened('protocols/a.curette');
  await expect(ask('textDocument/prepareRename', 'protocols/a.curette', 'surgeon }')).rejects.toThrow(
    /^"surgeon" is from the shipped library/,
  );
  await expect(ask('textDocument/rename', 'protocols/a.curette', 'surgeon }', { newName: 'operator' })).rejects.toThrow(
    /shipped library/,
  );
  await expect(ask('textDocument/rename', 'protocols/a.curette', 'grain :', { newName: 'two words' })).rejects.toThrow(
    /is no name/,
  );
});

test('highlights say what is read and what is changed', async () => {
  opened('protocols/a.curette');
  const found = await ask<DocumentHighlight[]>('textDocument/documentHighlight', 'protocols/a.curette', 'grain :');
  expect(found.map(({ range, kind }) => [range.start.line, kind])).toEqual([
    [8, 3],
    [11, 3],
  ]);
});

test('symbols of the workspace and of the library', async () => {
  const find = (query: string) => server.connection.sendRequest<SymbolInformation[]>('workspace/symbol', { query });
  const [first] = await find('prep');
  expect(first).toMatchObject({ name: 'prepare', containerName: 'Prepare' });
  expect(short(first?.location as Location)).toBe('policy.curette:7');
  const library = await find('allograft');
  expect(library.some(({ location }) => location.uri === 'curette-library:/std/grafting.curette')).toBe(true);
});

test('who uses a procedure, and what is of a kind', async () => {
  opened('policy.curette');
  const [item] = await ask<CallHierarchyItem[]>('textDocument/prepareCallHierarchy', 'policy.curette', 'prepare');
  expect(item?.name).toBe('prepare');
  const calls = await server.connection.sendRequest<CallHierarchyIncomingCall[]>('callHierarchy/incomingCalls', {
    item,
  });
  expect(calls.map(({ from }) => from.name).sort()).toEqual(['a', 'b']);
  expect(calls[0]?.fromRanges[0]?.start.line).toBe(11);
  const [called] = await server.connection.sendRequest<{ to: CallHierarchyItem }[]>('callHierarchy/outgoingCalls', {
    item,
  });
  expect(called?.to.name).toBe('wet');
  const [kind] = await ask<TypeHierarchyItem[]>('textDocument/prepareTypeHierarchy', 'policy.curette', 'filler');
  const below = await server.connection.sendRequest<TypeHierarchyItem[]>('typeHierarchy/subtypes', { item: kind });
  expect(below.map(({ name }) => name)).toEqual(['granules']);
  const above = await server.connection.sendRequest<TypeHierarchyItem[]>('typeHierarchy/supertypes', { item: kind });
  expect(above.map(({ name, uri }) => [name, uri])).toEqual([['material', 'curette-library:/std/core.curette']]);
  const entries = await ask<Location[]>('textDocument/implementation', 'policy.curette', 'filler f');
  expect(entries.map(short)).toEqual(['policy.curette:10']);
  const sort = await ask<Location[]>('textDocument/typeDefinition', 'policy.curette', 'granules');
  expect(sort.map(short)).toEqual(['policy.curette:0']);
});

test('a file that moves: lines that bring it in follow, and problems are told anew', async () => {
  const a = server.uri('protocols/a.curette');
  const quiet = server.told(a);
  opened('protocols/a.curette');
  expect((await quiet).map(({ code }) => code)).not.toContain('missing_file');
  const files = [{ oldUri: server.uri('policy.curette'), newUri: server.uri('house/rules.curette') }];
  const edit = await server.connection.sendRequest<WorkspaceEdit>('workspace/willRenameFiles', { files });
  const edits = (edit.documentChanges ?? []) as TextDocumentEdit[];
  expect(edits.flatMap(({ edits }) => edits.map((one) => 'newText' in one && one.newText))).toEqual([
    '../house/rules',
    '../house/rules',
  ]);
  const lost = server.told(a, ({ diagnostics }) => diagnostics.some(({ code }) => code === 'missing_file'));
  mkdirSync(join(server.folder, 'house'));
  renameSync(join(server.folder, 'policy.curette'), join(server.folder, 'house/rules.curette'));
  await server.connection.sendNotification('workspace/didRenameFiles', { files });
  await lost;
  const found = server.told(
    a,
    ({ version, diagnostics }) => version === 2 && !diagnostics.some(({ code }) => code === 'missing_file'),
  );
  server.change(a, 2, [{ text: protocol('a', '../house/rules') }]);
  await found;
});

test('a folder that moves takes its files with it', async () => {
  const files = [{ oldUri: server.uri('protocols'), newUri: server.uri('archive/2026') }];
  const edit = await server.connection.sendRequest<WorkspaceEdit>('workspace/willRenameFiles', { files });
  const edits = (edit.documentChanges ?? []) as TextDocumentEdit[];
  expect(edits.map(({ textDocument }) => textDocument.uri).sort()).toEqual([
    server.uri('protocols/a.curette'),
    server.uri('protocols/b.curette'),
  ]);
  expect(edits.flatMap(({ edits }) => edits.map((one) => 'newText' in one && one.newText))).toEqual([
    '../../policy',
    '../../policy',
  ]);
  mkdirSync(join(server.folder, 'archive'));
  renameSync(join(server.folder, 'protocols'), join(server.folder, 'archive/2026'));
  await server.connection.sendNotification('workspace/didRenameFiles', { files });
  opened('policy.curette');
  const context = { includeDeclaration: false };
  const found = await ask<Location[]>('textDocument/references', 'policy.curette', 'granules', { context });
  // Nobody has made the edits, so the moved files bring in nothing any more.
  expect(found).toEqual([]);
});

test('a file that an open one uses and that changes on disk is checked with it', async () => {
  const a = server.uri('protocols/a.curette');
  opened('protocols/a.curette');
  const told = server.told(a, ({ diagnostics }) => diagnostics.some(({ code }) => code === 'unknown_action'));
  server.write('policy.curette', policy.replaceAll('prepare', 'ready'));
  server.touched('policy.curette');
  await told;
  const mended = server.told(a, ({ diagnostics }) => !diagnostics.some(({ code }) => code === 'unknown_action'));
  server.write('policy.curette', policy);
  server.touched('policy.curette');
  await mended;
});

test('a question about all files that is taken back is not gone on with', async () => {
  for (let i = 0; i < 400; i++) server.write(`many/${i}.curette`, protocol(`p${i}`, '../policy'));
  server.touched(...Array.from({ length: 400 }, (_, i) => `many/${i}.curette`));
  opened('policy.curette');
  const { CancellationTokenSource } = await import('vscode-jsonrpc');
  const source = new CancellationTokenSource();
  const answer = server.connection.sendRequest(
    'textDocument/references',
    {
      textDocument: { uri: server.uri('policy.curette') },
      position: { line: 10, character: 12 },
      context: { includeDeclaration: true },
    },
    source.token,
  );
  setTimeout(() => source.cancel(), 30);
  await expect(answer).rejects.toMatchObject({ code: -32800 });
});
