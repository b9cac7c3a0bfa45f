import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type {
  DocumentLink,
  FoldingRange,
  SelectionRange,
  SemanticTokens,
  SemanticTokensDelta,
  SignatureHelp,
} from 'vscode-languageserver-protocol';
import { SemanticTokenTypes } from 'vscode-languageserver-protocol';
import manifest from '../../client/package.json' with { type: 'json' };
import { capabilities, type Server, startServer } from './server.ts';

const text = `use std/perioperative
use std/oral

source sheet "Sheet" {
  identifier "10.1000/182"
}

/// One.
/// Two.
protocol small "Small" {
  given { patient : patient, site : tooth }
  team { surgeon }
  visit first "First" {
    wait 10 min
    extract site with forceps by surgeon
  }
}
`;

let server: Server;
let uri: string;
beforeEach(async () => {
  server = await startServer({
    capabilities: {
      ...capabilities,
      textDocument: { ...capabilities.textDocument, documentLink: { tooltipSupport: true } },
    },
  });
  uri = server.uri('a.curette');
  server.open(uri, text);
});
afterEach(async () => {
  expect(await server.stop()).toBe(0);
  expect(server.said()).toBe('');
});

function ask<Answer>(method: string, params: object = {}): Promise<Answer> {
  return server.connection.sendRequest<Answer>(method, { textDocument: { uri }, ...params });
}

describe('colours', () => {
  /** Words with their colour, read as an editor reads them. */
  const read = ({ data }: SemanticTokens, from = text): string[] => {
    const legend = server.initialized.capabilities.semanticTokensProvider?.legend;
    const lines = from.split('\n');
    let [line, character] = [0, 0];
    const words: string[] = [];
    for (let at = 0; at < data.length; at += 5) {
      const [down = 0, right = 0, length = 0, type = 0, bits = 0] = data.slice(at, at + 5);
      character = down > 0 ? right : character + right;
      line += down;
      const marks = legend?.tokenModifiers.filter((_, bit) => bits & (1 << bit)) ?? [];
      words.push([lines[line]?.slice(character, character + length), legend?.tokenTypes[type], ...marks].join(' '));
    }
    return words;
  };

  test('of a whole document', async () => {
    const words = read(await ask<SemanticTokens>('textDocument/semanticTokens/full'));
    expect(words).toContain('sheet source declaration');
    expect(words).toContain('tooth class defaultLibrary');
    expect(words).toContainEqual(expect.stringMatching(/^extract function defaultLibrary/));
    expect(words).toContain('surgeon role defaultLibrary');
    expect(words).toContain('min unit defaultLibrary');
  });

  test('of what is in sight', async () => {
    const range = { start: { line: 13, character: 0 }, end: { line: 14, character: 0 } };
    expect(read(await ask<SemanticTokens>('textDocument/semanticTokens/range', { range }))[0]).toBe(
      'min unit defaultLibrary',
    );
  });

  test('after a change only what has changed is told', async () => {
    const full = await ask<SemanticTokens>('textDocument/semanticTokens/full');
    const at = { line: 13, character: 4 };
    server.change(uri, 2, [{ range: { start: at, end: at }, text: 'pause sign_in\n    ' }]);
    const delta = await ask<SemanticTokensDelta>('textDocument/semanticTokens/full/delta', {
      previousResultId: full.resultId,
    });
    expect(delta.edits).toHaveLength(1);
    const data = [...full.data];
    for (const { start, deleteCount, data: more } of delta.edits) {
      expect(deleteCount + (more?.length ?? 0)).toBeLessThan(full.data.length / 2);
      data.splice(start, deleteCount, ...(more ?? []));
    }
    const afresh = await ask<SemanticTokens>('textDocument/semanticTokens/full');
    expect(data).toEqual(afresh.data);
  });

  test('whatever is no standard colour is declared in the manifest, with what themes know in its place', () => {
    const { semanticTokenTypes, semanticTokenModifiers, semanticTokenScopes } = manifest.contributes;
    const legend = server.initialized.capabilities.semanticTokensProvider?.legend;
    const standard = new Set<string>(Object.values(SemanticTokenTypes));
    const types = legend?.tokenTypes.filter((type) => !standard.has(type)) ?? [];
    expect(semanticTokenTypes.map(({ id }) => id).sort()).toEqual(types.sort());
    expect(semanticTokenModifiers.map(({ id }) => id)).toEqual(
      legend?.tokenModifiers.filter((mark) => mark !== 'declaration' && mark !== 'defaultLibrary'),
    );
    for (const type of legend?.tokenTypes ?? [])
      expect(Object.keys(semanticTokenScopes[0]?.scopes ?? {})).toContain(type);
  });

  test('an answer that nobody remembers is given anew', async () => {
    const answer = await ask<SemanticTokens>('textDocument/semanticTokens/full/delta', { previousResultId: 'other' });
    expect(read(answer)).toContain('sheet source declaration');
  });
});

test('folding keeps what an editor that folds by characters needs', async () => {
  const ranges = await ask<FoldingRange[]>('textDocument/foldingRange');
  expect(ranges).toContainEqual({ startLine: 0, startCharacter: 0, endLine: 1, endCharacter: 12, kind: 'imports' });
  expect(ranges).toContainEqual({ startLine: 7, startCharacter: 0, endLine: 8, endCharacter: 8, kind: 'comment' });
  expect(ranges).toContainEqual({ startLine: 12, startCharacter: 23, endLine: 15, endCharacter: 2 });
});

test('folding of whole lines leaves the closing brace in sight', async () => {
  const lines = await startServer({ capabilities: { textDocument: { foldingRange: { lineFoldingOnly: true } } } });
  const address = lines.uri('a.curette');
  lines.open(address, text);
  const ranges = await lines.connection.sendRequest('textDocument/foldingRange', { textDocument: { uri: address } });
  expect(ranges).toEqual([
    { startLine: 0, endLine: 1, kind: 'imports' },
    { startLine: 3, endLine: 4 },
    { startLine: 7, endLine: 8, kind: 'comment' },
    { startLine: 9, endLine: 15 },
    { startLine: 12, endLine: 14 },
  ]);
  await lines.stop();
});

test('selections, each within the next', async () => {
  const [word, nowhere] = await ask<SelectionRange[]>('textDocument/selectionRange', {
    positions: [
      { line: 14, character: 14 },
      { line: 2, character: 0 },
    ],
  });
  const ranges: string[] = [];
  for (let at = word; at; at = at.parent)
    ranges.push(`${at.range.start.line}:${at.range.start.character}–${at.range.end.line}:${at.range.end.character}`);
  expect(ranges[0]).toBe('14:12–14:16');
  expect(ranges.at(-1)).toBe('0:0–17:0');
  expect(nowhere?.range).toBeDefined();
});

test('links to files and to where a source is published', async () => {
  expect(await ask<DocumentLink[]>('textDocument/documentLink')).toEqual([
    {
      range: { start: { line: 0, character: 4 }, end: { line: 0, character: 21 } },
      target: 'curette-library:/std/perioperative.curette',
      tooltip: 'Opens std/perioperative of the shipped library',
    },
    {
      range: { start: { line: 1, character: 4 }, end: { line: 1, character: 12 } },
      target: 'curette-library:/std/oral.curette',
      tooltip: 'Opens std/oral of the shipped library',
    },
    {
      range: { start: { line: 4, character: 14 }, end: { line: 4, character: 25 } },
      target: 'https://doi.org/10.1000/182',
      tooltip: 'Opens https://doi.org/10.1000/182',
    },
  ]);
});

test('how a step may go on, straight after a keystroke', async () => {
  const at = { line: 14, character: 16 };
  server.change(uri, 2, [{ range: { start: at, end: { line: 14, character: 40 } }, text: ' with ' }]);
  const help = await ask<SignatureHelp>('textDocument/signatureHelp', { position: { line: 14, character: 22 } });
  const active = help.signatures[help.activeSignature ?? 0];
  expect(active?.label).toMatch(/^extract \(tooth\)/);
  const slot = active?.parameters?.[help.activeParameter ?? -1];
  const [start, end] = (slot?.label ?? [0, 0]) as [number, number];
  expect(active?.label.slice(start, end)).toMatch(/^with \(/);
  expect(active?.documentation).toMatchObject({ kind: 'markdown', value: expect.stringContaining('makes') });
  expect(await ask('textDocument/signatureHelp', { position: { line: 0, character: 5 } })).toBeNull();
});
