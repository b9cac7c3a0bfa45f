import { deepEqual, equal, match, ok } from 'node:assert/strict';
import { suite, test } from 'mocha';
import * as vscode from 'vscode';
import { at, openSmall, problemAt, problemsAt, until } from './editor.ts';

const misspelt = (text: string) => text.replace('    wet grain', '    wett grain');

suite('problems', () => {
  test('appear when a protocol with a slip is opened', async () => {
    const { document } = await openSmall(misspelt);
    const problem = await problemAt(document, 'wett');
    equal(problem.severity, vscode.DiagnosticSeverity.Error);
  });

  test('appear while it is typed, and go when it is mended', async () => {
    const editor = await openSmall();
    const { document } = editor;
    const verb = () => {
      const start = at(document, 'wet grain');
      return new vscode.Range(start, start.translate(0, 'wet'.length));
    };
    await editor.edit((edit) => edit.insert(verb().end, 't'));
    await problemAt(document, 'wett');
    const start = at(document, 'wett grain');
    await editor.edit((edit) => edit.delete(new vscode.Range(start.translate(0, 3), start.translate(0, 4))));
    await until('the problem to go', () => (problemsAt(document, 'wett').length === 0 ? true : undefined));
  });

  test('link to a page that says what they mean', async () => {
    const { document } = await openSmall(misspelt);
    const { code } = await problemAt(document, 'wett');
    ok(typeof code === 'object', 'the problem has no link');
    const page = await vscode.workspace.openTextDocument(code.target);
    equal(page.uri.scheme, 'curette-problem');
    match(page.getText(), /^# /);
    ok(page.getText().includes(String(code.value)));
  });

  test('are mended by their quick fix', async () => {
    const { document } = await openSmall(misspelt);
    const { range } = await problemAt(document, 'wett');
    // The editor takes a request back when anything in the window moves, and asks again: so does the test.
    const edit = await until('a quick fix', async () => {
      const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>(
        'vscode.executeCodeActionProvider',
        document.uri,
        range,
        vscode.CodeActionKind.QuickFix.value,
      );
      return actions.find((action) => action.edit !== undefined)?.edit;
    });
    equal(await vscode.workspace.applyEdit(edit), true);
    ok(document.getText().includes('    wet grain'), document.getText());
    await until('the problem to go', () => (problemsAt(document, 'wett').length === 0 ? true : undefined));
  });

  test('come again after the language server was restarted', async () => {
    const { document } = await openSmall(misspelt);
    await problemAt(document, 'wett');
    await vscode.commands.executeCommand('curette.restartServer');
    await problemAt(document, 'wett');
    deepEqual(problemsAt(document, 'wett').length, 1);
  });
});
