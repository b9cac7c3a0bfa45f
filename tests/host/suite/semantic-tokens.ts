import { ok } from 'node:assert/strict';
import { suite, test } from 'mocha';
import * as vscode from 'vscode';
import { openSmall, until } from './editor.ts';

suite('colours', () => {
  test('say what a word stands for, and at which one a problem stands', async () => {
    const { document } = await openSmall((text) => text.replace('    wet grain', '    wett grain'));
    const words = await until('colours', async () => {
      const found = await coloured(document);
      return found.includes('wett: function unresolved') ? found : undefined;
    });
    for (const word of [
      'filler: class declaration',
      'granules: entry declaration',
      'surgeon: role defaultLibrary',
      'grain: variable',
    ])
      ok(words.includes(word), `${word} is not among ${words.join(', ')}`);
  });

  test('follow what is typed', async () => {
    const editor = await openSmall();
    const { document } = editor;
    await until('the colour of a verb', async () =>
      (await coloured(document)).includes('wet: function') ? true : undefined,
    );
    const verb = document.positionAt(document.getText().indexOf('wet grain'));
    await editor.edit((edit) => edit.insert(verb, 'wet grain by surgeon\n    '));
    await until('both verbs to have it', async () =>
      (await coloured(document)).filter((word) => word === 'wet: function').length === 2 ? true : undefined,
    );
  });
});

/** The words of a document as `word: type modifiers`. */
async function coloured(document: vscode.TextDocument): Promise<string[]> {
  const { uri } = document;
  const legend = await vscode.commands.executeCommand<vscode.SemanticTokensLegend | undefined>(
    'vscode.provideDocumentSemanticTokensLegend',
    uri,
  );
  const tokens = await vscode.commands.executeCommand<vscode.SemanticTokens | undefined>(
    'vscode.provideDocumentSemanticTokens',
    uri,
  );
  if (!legend || !tokens) return [];
  const words: string[] = [];
  let line = 0;
  let character = 0;
  for (let at = 0; at < tokens.data.length; at += 5) {
    const [down = 0, right = 0, length = 0, type = 0, bits = 0] = tokens.data.slice(at, at + 5);
    character = down > 0 ? right : character + right;
    line += down;
    const text = document.getText(new vscode.Range(line, character, line, character + length));
    const marks = legend.tokenModifiers.filter((_, bit) => (bits & (1 << bit)) !== 0);
    words.push(`${text}: ${[legend.tokenTypes[type], ...marks].join(' ')}`);
  }
  return words;
}
