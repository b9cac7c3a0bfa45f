import { equal, ok } from 'node:assert/strict';
import { suite, test } from 'mocha';
import * as vscode from 'vscode';
import { openFile, until } from './editor.ts';

suite('the live checklist', () => {
  test('opens beside the text, and once for each document', async () => {
    await openFile('small.curette');
    await vscode.commands.executeCommand('curette.showChecklist');
    const panel = await until('the checklist', () => checklists()[0]);
    equal(panel.label, 'Checklist: small.curette');
    ok(panel.group.viewColumn !== vscode.window.activeTextEditor?.viewColumn, 'it hides the text');
    await vscode.commands.executeCommand('curette.showChecklist');
    equal(checklists().length, 1);
    await vscode.window.tabGroups.close(panel);
  });
});

function checklists(): vscode.Tab[] {
  return vscode.window.tabGroups.all
    .flatMap(({ tabs }) => tabs)
    .filter(({ input }) => input instanceof vscode.TabInputWebview && input.viewType.includes('curette.checklist'));
}
