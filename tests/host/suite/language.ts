import { equal, ok } from 'node:assert/strict';
import { suite, test } from 'mocha';
import * as vscode from 'vscode';
import { openText } from './editor.ts';

suite('the extension', () => {
  test('wakes up when a protocol is opened', async () => {
    await openText('protocol a "A" {\n}\n');
    const extension = vscode.extensions.getExtension('curette.curette-vscode');
    ok(extension, 'the extension is not installed');
    await extension.activate();
    equal(extension.isActive, true);
  });

  test('gives files ending in .curette their language', async () => {
    const document = await vscode.workspace.openTextDocument(
      vscode.Uri.file('/nowhere/a.curette').with({ scheme: 'untitled' }),
    );
    equal(document.languageId, 'curette');
  });

  test('contributes its commands', async () => {
    const commands = await vscode.commands.getCommands(true);
    ok(commands.includes('curette.showPreview'));
    ok(commands.includes('curette.restartServer'));
  });
});
