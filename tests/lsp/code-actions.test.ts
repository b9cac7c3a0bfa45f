import { afterEach, expect, test } from 'vitest';
import type { ClientCapabilities, CodeAction, TextDocumentEdit } from 'vscode-languageserver-protocol';
import { capabilities, type Server, startServer } from './server.ts';

const slips = `kind a is matrial
kind b is matrial

rule r "R" {
  every a declares x
}
`;

let server: Server;
afterEach(async () => {
  expect(await server.stop()).toBe(0);
  expect(server.said()).toBe('');
});

async function actionsIn(
  text: string,
  options: { readonly capabilities?: ClientCapabilities; readonly only?: readonly string[] } = {},
) {
  server = await startServer({ capabilities: options.capabilities ?? capabilities });
  const uri = server.uri('a.curette');
  server.open(uri, text);
  const diagnostics = await server.told(uri);
  const actions = await server.connection.sendRequest<CodeAction[]>('textDocument/codeAction', {
    textDocument: { uri },
    range: diagnostics[0]?.range ?? { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
    context: { diagnostics, ...(options.only ? { only: options.only } : {}) },
  });
  return { uri, actions, diagnostics };
}

const textsOf = (action: CodeAction | undefined) =>
  (action?.edit?.documentChanges ?? []).flatMap((change) =>
    (change as TextDocumentEdit).edits.map((edit) => ('newText' in edit ? edit.newText : '')),
  );

const resolving: ClientCapabilities = {
  ...capabilities,
  textDocument: {
    ...capabilities.textDocument,
    codeAction: { dataSupport: true, resolveSupport: { properties: ['edit'] } },
  },
};

test('all problems of a kind are mended with one press', async () => {
  const { actions, diagnostics } = await actionsIn(slips);
  const all = actions.find(({ title }) => title.startsWith('Mend all in this file'));
  expect(all).toMatchObject({ title: 'Mend all in this file: Unknown kind', kind: 'quickfix' });
  expect(all?.diagnostics).toHaveLength(diagnostics.filter(({ code }) => code === 'unknown_kind').length);
  expect(textsOf(all)).toEqual(['material', 'material']);
});

test('what it changes is asked for when somebody takes it, where the editor can', async () => {
  const { actions } = await actionsIn(slips, { capabilities: resolving });
  const all = actions.find(({ title }) => title.startsWith('Mend all in this file'));
  expect(all?.edit).toBeUndefined();
  const resolved = await server.connection.sendRequest<CodeAction>('codeAction/resolve', all);
  expect(textsOf(resolved)).toEqual(['material', 'material']);
});

test('for a text that has changed meanwhile it changes nothing', async () => {
  const { uri, actions } = await actionsIn(slips, { capabilities: resolving });
  const all = actions.find(({ title }) => title.startsWith('Mend all in this file'));
  server.change(uri, 2, [{ text: `// a line\n${slips}` }]);
  const resolved = await server.connection.sendRequest<CodeAction>('codeAction/resolve', all);
  expect(resolved.edit).toBeUndefined();
});

const foreign = `protocol p "P" {
  given { patient : patient }
  exclude when patient has diabetes && patient has pregnancy
}
kind a is matrial
`;

test('on saving, what is but spelling is written as it is read, and no more', async () => {
  const { actions } = await actionsIn(foreign, { only: ['source.fixAll.curette'] });
  expect(actions).toHaveLength(1);
  expect(actions[0]).toMatchObject({ title: 'Write signs as they are written here', kind: 'source.fixAll.curette' });
  expect(textsOf(actions[0])).toEqual(['and']);
});

test.each([['source.fixAll'], ['source']])('an editor that asks for %s gets it too', async (only) => {
  const { actions } = await actionsIn(foreign, { only: [only] });
  expect(actions.map(({ kind }) => kind)).toEqual(['source.fixAll.curette']);
});

test('it is not among the mends of a word', async () => {
  const { actions } = await actionsIn(foreign);
  expect(actions.map(({ kind }) => kind)).not.toContain('source.fixAll.curette');
  expect(actions.length).toBeGreaterThan(0);
});

test('nothing is offered that was not asked for', async () => {
  const { actions } = await actionsIn(slips, { only: ['refactor'] });
  expect(actions).toEqual([]);
});
