import { equal, match, ok } from 'node:assert/strict';
import { suite, test } from 'mocha';
import * as vscode from 'vscode';
import { at, openSmall, until } from './editor.ts';

async function offered(document: vscode.TextDocument, place: vscode.Position, resolved = 0) {
  const list = await until('what may be written', async () => {
    const found = await vscode.commands.executeCommand<vscode.CompletionList | undefined>(
      'vscode.executeCompletionItemProvider',
      document.uri,
      place,
      undefined,
      resolved,
    );
    return found?.items.some(({ kind }) => kind !== vscode.CompletionItemKind.Text) ? found : undefined;
  });
  return list.items;
}

const labelOf = ({ label }: vscode.CompletionItem) => (typeof label === 'string' ? label : label.label);

suite('completion', () => {
  test('writes a whole step, whose gaps are filled in with what fits', async () => {
    const editor = await openSmall();
    const { document } = editor;
    await editor.edit((edit) => edit.insert(at(document, 'wet grain'), '\n    '));
    const items = await offered(document, at(document, 'wet grain').translate(-1, 4));
    const wet = items.find((item) => labelOf(item) === 'wet');
    ok(wet?.insertText instanceof vscode.SnippetString);
    match(wet.insertText.value, /^wet \$\{1:grain\}$/);
    editor.selection = new vscode.Selection(at(document, 'wet grain'), at(document, 'wet grain'));
    const before = document.getText().split('wet grain').length;
    await editor.insertSnippet(wet.insertText);
    equal(document.getText().split('wet grain').length, before + 1);
  });

  test('tells of a thing why it is not ready, and its state, before it is taken', async () => {
    const editor = await openSmall();
    const { document } = editor;
    const behind = at(document, 'wet grain by surgeon').translate(0, 'wet grain by surgeon'.length);
    await editor.edit((edit) => edit.insert(behind, '\n    wet \n'));
    const items = await offered(document, behind.with(behind.line + 1, 8), 50);
    const grain = items.find((item) => labelOf(item) === 'grain');
    ok(grain, items.map(labelOf).join(', '));
    match(typeof grain.label === 'string' ? '' : (grain.label.description ?? ''), /^wetted here: it must be dry$/);
    const told = grain.documentation;
    match(told instanceof vscode.MarkdownString ? told.value : '', /Here: \*\*wetted\*\* since `wet grain`/);
  });
});
