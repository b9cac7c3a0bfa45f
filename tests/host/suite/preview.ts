import { equal, ok } from 'node:assert/strict';
import { suite, test } from 'mocha';
import * as vscode from 'vscode';
import { openFile, until } from './editor.ts';

suite('the preview', () => {
  test('opens beside the text, once, and says what it shows', async () => {
    await openFile('small.curette');
    await vscode.commands.executeCommand('curette.showPreview');
    const panel = await until('the preview', () => previews().find(({ label }) => label !== 'Preview'));
    equal(panel.label, 'Preview: Small <b>protocol</b>');
    ok(panel.group.viewColumn !== vscode.window.activeTextEditor?.viewColumn, 'it hides the text');
    await vscode.commands.executeCommand('curette.showPreview');
    equal(previews().length, 1);
    await vscode.window.tabGroups.close(panel);
  });
});

function previews(): vscode.Tab[] {
  return vscode.window.tabGroups.all
    .flatMap(({ tabs }) => tabs)
    .filter(({ input }) => input instanceof vscode.TabInputWebview && input.viewType.includes('curette.preview'));
}
