import { deepEqual, fail } from 'node:assert/strict';
import { suite, test } from 'mocha';
import * as vscode from 'vscode';
import { openFile, until } from './editor.ts';

suite('files that nobody has opened', () => {
  test('have their problems shown, until they are gone', async () => {
    await openFile('small.curette');
    const folder = vscode.workspace.workspaceFolders?.[0] ?? fail('no folder is open');
    const uri = vscode.Uri.joinPath(folder.uri, 'closed.curette');
    await vscode.workspace.fs.writeFile(uri, new TextEncoder().encode('kind own is nothing_known\n'));
    await until('a problem in it', () => (problems(uri).includes('unknown_kind') ? true : undefined));
    await settings().update('checkWorkspace', false, vscode.ConfigurationTarget.Workspace);
    await until('its problems to go', () => (problems(uri).length === 0 ? true : undefined));
    await settings().update('checkWorkspace', undefined, vscode.ConfigurationTarget.Workspace);
    await until('a problem in it again', () => (problems(uri).length > 0 ? true : undefined));
    await vscode.workspace.fs.delete(uri);
    await until('its problems to go with it', () => (problems(uri).length === 0 ? true : undefined));
    deepEqual(problems(uri), []);
  });
});

function settings(): vscode.WorkspaceConfiguration {
  return vscode.workspace.getConfiguration('curette');
}

function problems(uri: vscode.Uri): unknown[] {
  return vscode.languages.getDiagnostics(uri).map(({ code }) => (typeof code === 'object' ? code.value : code));
}
