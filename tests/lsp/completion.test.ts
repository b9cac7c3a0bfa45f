/** Completion and hover as an editor gets them: forms where it can fill them in, documentation when it asks. */
import { afterEach, expect, test } from 'vitest';
import type { ClientCapabilities, CompletionItem, Hover, MarkupContent } from 'vscode-languageserver-protocol';
import { capabilities, type Server, startServer } from './server.ts';

const text = `use std/oral
use std/grafting
use std/perioperative

protocol p "P" {
  given { patient : patient, site : tooth { number 14 }, hollow : socket { tooth site } }
  team { surgeon }
  materials { grain : cortical_allograft 0.5 mL, fluid : sterile_saline 5 mL }
  visit v "V" {
    
  }
}
`;
const LINE = 9;

let server: Server;
afterEach(async () => {
  expect(await server.stop()).toBe(0);
  expect(server.said()).toBe('');
});

const filling: ClientCapabilities = {
  ...capabilities,
  textDocument: {
    ...capabilities.textDocument,
    completion: {
      completionItem: { snippetSupport: true, labelDetailsSupport: true, commitCharactersSupport: true },
    },
  },
};

async function offered(typed: string): Promise<CompletionItem[]> {
  const uri = server.uri('p.curette');
  server.open(uri, text);
  const at = { line: LINE, character: 4 };
  server.change(uri, 2, [{ range: { start: at, end: at }, text: typed }]);
  return server.connection.sendRequest('textDocument/completion', {
    textDocument: { uri },
    position: { line: LINE, character: 4 + typed.length },
  });
}

const named = (items: readonly CompletionItem[], label: string) => {
  const found = items.find((item) => item.label === label);
  if (!found) throw new Error(`${label} is not among ${items.map((item) => item.label).join(', ')}`);
  return found;
};

test('an editor that fills in gaps gets a whole step and a whole line', async () => {
  server = await startServer({ capabilities: filling });
  const items = await offered('');
  expect(named(items, 'wet')).toMatchObject({
    insertTextFormat: 2,
    textEdit: { newText: expect.stringMatching(/^wet \$\{1:grain\} with \$\{2:\w+\}$/) },
  });
  const decision = items.find(({ label }) => label.startsWith('decide '));
  expect(decision?.textEdit?.newText).toMatch(/^decide \w+ \{\n {2}option \w+ \{\n {4}\$1\n {2}\}\n/);
  expect(decision?.insertTextMode).toBe(2);
});

test('any other editor gets words alone', async () => {
  server = await startServer();
  const items = await offered('');
  expect(named(items, 'wet').textEdit).toMatchObject({ newText: 'wet' });
  for (const { insertTextFormat, textEdit, labelDetails, commitCharacters } of items) {
    expect(insertTextFormat).toBeUndefined();
    expect(textEdit?.newText).not.toContain('$');
    expect(labelDetails).toBeUndefined();
    expect(commitCharacters).toBeUndefined();
  }
});

test('what is not ready comes last, says why beside its name, and tells the rest when it is asked', async () => {
  server = await startServer({ capabilities: filling });
  const items = await offered('pack ');
  const grain = named(items, 'grain');
  expect(grain.labelDetails?.description).toMatch(/^dry here: wet it first$/);
  expect(grain.documentation).toBeUndefined();
  const full = await server.connection.sendRequest<CompletionItem>('completionItem/resolve', grain);
  const told = (full.documentation as MarkupContent).value;
  expect(told).toContain('**Dry here: wet it first.**');
  expect(told).toContain('Here: **dry** from the beginning.');
  expect({ ...full, documentation: undefined }).toEqual({ ...grain, documentation: undefined });
});

test('an item of an answer that is gone is given back as it is', async () => {
  server = await startServer({ capabilities: filling });
  const [first] = await offered('pack ');
  await server.connection.sendRequest('textDocument/completion', {
    textDocument: { uri: server.uri('p.curette') },
    position: { line: 0, character: 0 },
  });
  expect(await server.connection.sendRequest('completionItem/resolve', first)).toEqual(first);
});

test('labels of several words are found by their words', async () => {
  server = await startServer({ capabilities: filling });
  for (const { label, filterText } of await offered(''))
    if (!/^[\p{L}\d_]+$/u.test(label)) expect(filterText).toMatch(/^[\p{L}\d_]+(?: [\p{L}\d_]+)*$/u);
});

test('teeth are numbered as the user has set it', async () => {
  server = await startServer({ capabilities: { ...filling, workspace: { configuration: true } } });
  server.connection.onRequest('workspace/configuration', () => [{ toothNumbers: 'universal' }]);
  const uri = server.uri('p.curette');
  server.open(uri, text);
  const character = text.split('\n')[5]?.indexOf('number') ?? 0;
  const ask = () =>
    server.connection.sendRequest<Hover>('textDocument/hover', {
      textDocument: { uri },
      position: { line: 5, character },
    });
  await expect
    .poll(async () => ((await ask()).contents as MarkupContent).value)
    .toContain('universal 5 (ISO 14, Palmer 4┘');
});
