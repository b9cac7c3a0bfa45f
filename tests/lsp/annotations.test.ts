import { afterEach, expect, test, vi } from 'vitest';
import type { ClientCapabilities, CodeLens, InlayHint } from 'vscode-languageserver-protocol';
import { capabilities, type Server, startServer } from './server.ts';

const house = `kind hole is place {
  states raw -> cleaned -> filled
}
kind paste is material {
  states dry -> wetted
}
action wet (paste p) {
  makes p wetted
  takes 1 min
}
action clean (hole h) {
  makes h cleaned
  takes 5..20 min
}
action fill (hole h) with (paste p) {
  needs p wetted for 10..60 min
  makes h filled
  takes 5 min
}
`;

const main = `use house

protocol filling "Filling" {
  given { gap : hole }
  materials { filler : paste }
  visit first "First visit" {
    wet filler
    clean gap
    fill gap with filler
  }
}
`;

const all = { start: { line: 0, character: 0 }, end: { line: 100, character: 0 } };

let server: Server;
afterEach(async () => {
  expect(await server.stop()).toBe(0);
  expect(server.said()).toBe('');
});

/** Starts a server with the two files, for an editor that can do some more. */
async function start(more: Pick<ClientCapabilities, 'workspace' | 'textDocument'> = {}): Promise<string> {
  server = await startServer({
    files: { 'house.curette': house, 'main.curette': main },
    capabilities: {
      workspace: { ...capabilities.workspace, ...more.workspace },
      textDocument: { ...capabilities.textDocument, ...more.textDocument },
    },
  });
  const uri = server.uri('main.curette');
  server.open(uri, main);
  return uri;
}

const hintsOf = (uri: string, range = all): Promise<InlayHint[]> =>
  server.connection.sendRequest('textDocument/inlayHint', { textDocument: { uri }, range });

const lensesOf = (uri: string): Promise<CodeLens[]> =>
  server.connection.sendRequest('textDocument/codeLens', { textDocument: { uri } });

const resolvesTooltips = { inlayHint: { resolveSupport: { properties: ['tooltip'] } } };

test('hints stand at the end of their lines; what they tell beyond that is told when it is asked for', async () => {
  const uri = await start({ textDocument: resolvesTooltips });
  const hints = await hintsOf(uri);
  expect(hints.map(({ position, label }) => [position.line, position.character, label])).toEqual([
    [7, 13, 'begins 1 min in'],
    [8, 24, 'begins 6–21 min in'],
  ]);
  expect(hints[0]).not.toHaveProperty('tooltip');
  const resolved = await server.connection.sendRequest<InlayHint>('inlayHint/resolve', hints[0]);
  expect(resolved).toMatchObject({
    label: 'begins 1 min in',
    tooltip: { kind: 'markdown', value: expect.stringMatching(/^Takes 5–20 min\.\n\nMay be held 40 min before/) },
  });
});

test('an editor that does not ask for more is told at once', async () => {
  const [first] = await hintsOf(await start());
  expect(first?.tooltip).toMatchObject({ value: expect.stringContaining('Takes 5–20 min.') });
});

test('only the lines that are in view are gone through', async () => {
  const uri = await start();
  const range = { start: { line: 8, character: 0 }, end: { line: 9, character: 0 } };
  expect((await hintsOf(uri, range)).map(({ position }) => position.line)).toEqual([8]);
});

test('hints are those of the text as it was typed last', async () => {
  const uri = await start();
  const at = { line: 7, character: 13 };
  server.change(uri, 2, [{ range: { start: at, end: at }, text: ' takes 30 min' }]);
  expect((await hintsOf(uri)).map(({ label }) => label)).toEqual(['begins 1 min in', 'begins 31 min in']);
});

test('a lens over each visit, whose words come when it is seen', async () => {
  const uri = await start();
  const [lens] = await lensesOf(uri);
  expect(lens?.range.start).toEqual({ line: 5, character: 2 });
  expect(lens?.command).toBeUndefined();
  const resolved = await server.connection.sendRequest<CodeLens>('codeLens/resolve', lens);
  expect(resolved.command).toEqual({ title: 'In the chair 11–26 min; 1 limit can break', command: '' });
});

test('what a hint or a lens says of itself is not taken on trust', async () => {
  await start();
  const position = { line: 0, character: 0 };
  const hint = { position, label: 'x', data: { uri: 7 } };
  expect(await server.connection.sendRequest('inlayHint/resolve', hint)).toEqual(hint);
  const gone = { range: all, data: { uri: server.uri('gone.curette'), statement: 3 } };
  expect(await server.connection.sendRequest('codeLens/resolve', gone)).toMatchObject({ command: { title: '' } });
});

test('each step that the run of a broken clock names is there, with what it takes in it', async () => {
  const uri = await start();
  const told = await server.told(uri);
  const problem = told.find(({ code }) => code === 'clock_broken');
  expect(problem?.message).toMatch(/^If "clean gap" takes 5 min/);
  expect(problem?.relatedInformation?.map(({ location, message }) => [location.range.start.line, message])).toEqual([
    [6, 'wetted from here on'],
    [7, expect.stringMatching(/^takes 5.*20 min; 5 min in this run$/)],
  ]);
});

test('after a change in another file the editor is told to ask again, if it can be told', async () => {
  const uri = await start({
    workspace: { inlayHint: { refreshSupport: true }, codeLens: { refreshSupport: true } },
  });
  const asked: string[] = [];
  for (const what of ['inlayHint', 'codeLens'])
    server.connection.onRequest(`workspace/${what}/refresh`, () => {
      asked.push(what);
      return null;
    });
  await hintsOf(uri);
  const at = { line: 7, character: 13 };
  server.change(uri, 2, [{ range: { start: at, end: at }, text: ' ' }]);
  await server.told(uri, ({ version }) => version === 2);
  expect(asked).toEqual([]);
  server.write('house.curette', house.replace('5..20 min', '7 min'));
  server.touched('house.curette');
  await server.told(uri);
  expect((await hintsOf(uri)).map(({ label }) => label)).toEqual(['begins 1 min in', 'begins 8 min in']);
  await vi.waitFor(() => expect(asked).toEqual(['inlayHint', 'codeLens']));
});

test('an editor that cannot be told is not told', async () => {
  const uri = await start();
  const asked: string[] = [];
  server.connection.onRequest((method) => {
    asked.push(method);
    return null;
  });
  await hintsOf(uri);
  server.write('house.curette', house.replace('5..20 min', '7 min'));
  server.touched('house.curette');
  await server.told(uri);
  await lensesOf(uri);
  expect(asked).toEqual([]);
});
