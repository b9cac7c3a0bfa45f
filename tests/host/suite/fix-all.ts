import { equal, ok } from 'node:assert/strict';
import { suite, test } from 'mocha';
import * as vscode from 'vscode';
import { openSmall, problemsAt, until } from './editor.ts';

suite('mending at once', () => {
  test('takes all problems of a kind', async () => {
    const { document } = await openSmall((text) =>
      text.replace('    wet grain', '    wett grain by surgeon\n    wett grain'),
    );
    await until('both problems', () => (problemsAt(document, 'wett').length === 2 ? true : undefined));
    const range = problemsAt(document, 'wett')[0]?.range;
    ok(range);
    // Asked to work out what each of them changes, as the editor does when one is taken.
    const edit = await until('the mend', async () => {
      const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>(
        'vscode.executeCodeActionProvider',
        document.uri,
        range,
        vscode.CodeActionKind.QuickFix.value,
        20,
      );
      return actions.find(({ title }) => title.startsWith('Mend all in this file'))?.edit;
    });
    equal(await vscode.workspace.applyEdit(edit), true);
    ok(!/\bwett\b/.test(document.getText()), document.getText());
  });

  test('of what is but spelling happens on saving, where that is set', async () => {
    const { document } = await openSmall((text) =>
      text.replace('  visit first', '  exclude when patient has a && patient has b\n  visit first'),
    );
    await until('the problem', () => problemsAt(document, '&&')[0]);
    const actions = await until('the mend', async () => {
      const found = await vscode.commands.executeCommand<vscode.CodeAction[]>(
        'vscode.executeCodeActionProvider',
        document.uri,
        new vscode.Range(0, 0, document.lineCount, 0),
        vscode.CodeActionKind.SourceFixAll.value,
      );
      return found.length > 0 ? found : undefined;
    });
    equal(actions[0]?.kind?.value, 'source.fixAll.curette');
  });
});
