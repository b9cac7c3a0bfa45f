import { deepEqual, equal, ok } from 'node:assert/strict';
import { suite, test } from 'mocha';
import * as vscode from 'vscode';
import { openFile } from './editor.ts';

suite('a new protocol', () => {
  test('is opened as a text of its own, its title selected, and nothing is wrong in it', async () => {
    await openFile('small.curette');
    await vscode.commands.executeCommand('curette.newProtocol', {
      operation: 'skin_excision',
      title: 'Small lesion of the hand',
    });
    const editor = vscode.window.activeTextEditor;
    ok(editor, 'no editor is open');
    equal(editor.document.isUntitled, true);
    equal(editor.document.languageId, 'curette');
    equal(editor.document.getText(editor.selection), 'Small lesion of the hand');
    ok(editor.document.getText().includes('protocol small_lesion_of_the_hand '), 'it is not named after its title');
    const wrong = () =>
      vscode.languages
        .getDiagnostics(editor.document.uri)
        .filter(({ severity }) => severity <= vscode.DiagnosticSeverity.Warning)
        .map(({ message }) => message);
    // Something to wait for: what is broken is told, and gone when it is mended.
    const whole = editor.document.getText();
    const replace = (text: string) =>
      editor.edit((edit) => edit.replace(new vscode.Range(0, 0, editor.document.lineCount, 0), text));
    await replace(whole.replace('pause sign_out', 'note "left out"'));
    for (let left = 100; wrong().length === 0 && left > 0; left--) await new Promise((done) => setTimeout(done, 100));
    ok(wrong().length > 0, 'it is not checked');
    await replace(whole);
    for (let left = 100; wrong().length > 0 && left > 0; left--) await new Promise((done) => setTimeout(done, 100));
    deepEqual(wrong(), []);
    await vscode.commands.executeCommand('workbench.action.revertAndCloseActiveEditor');
  });
});

suite('the sample workspace', () => {
  test('is copied whole beside what is there, and never over it', async () => {
    const folder = vscode.workspace.workspaceFolders?.[0]?.uri;
    ok(folder, 'no folder is open');
    const into = vscode.Uri.joinPath(folder, 'samples');
    await vscode.workspace.fs.createDirectory(into);
    const made: string[] = [];
    for (let times = 0; times < 2; times++) {
      const target = await vscode.commands.executeCommand<vscode.Uri>('curette.openSample', into);
      made.push(target.path.split('/').at(-1) ?? '');
      const names = (await vscode.workspace.fs.readDirectory(target)).map(([name]) => name);
      ok(names.includes('README.md') && names.includes('protocols') && names.includes('curette.json'), names.join());
    }
    deepEqual(made, ['curette-sample', 'curette-sample-2']);
    await vscode.workspace.fs.delete(into, { recursive: true });
  });
});
