import { equal, match } from 'node:assert/strict';
import { suite, test } from 'mocha';
import * as vscode from 'vscode';
import { at, openSmall, until } from './editor.ts';

const withWaits = (text: string) =>
  text.replace('wet grain by surgeon', 'wet grain by surgeon\n    wait 5..20 min because "It soaks"\n    wait 3 min');

suite('between the words', () => {
  test('stands when each step can begin, and follows what is typed', async () => {
    const editor = await openSmall(withWaits);
    const { document } = editor;
    const [first] = await hints(document, 2);
    equal(textOf(first), 'begins 1–2 min in');
    equal(first?.position.line, at(document, 'wait 5..20').line);
    equal(first?.position.character, document.lineAt(first.position.line).text.length);
    await editor.edit((edit) => edit.insert(at(document, 'by surgeon'), 'takes 4 min '));
    await until('the hints to follow', async () =>
      (await hints(document, 2)).some((hint) => textOf(hint) === 'begins 4 min in') ? true : undefined,
    );
  });

  test('stands over a visit how long it takes', async () => {
    const { document } = await openSmall(withWaits);
    const lens = await until('a lens', async () => {
      const found = await vscode.commands.executeCommand<vscode.CodeLens[]>(
        'vscode.executeCodeLensProvider',
        document.uri,
        10,
      );
      return found.find(({ command }) => command !== undefined && command.title !== '');
    });
    equal(lens.command?.title, 'In the chair 9–25 min');
    equal(lens.range.start.line, at(document, 'visit first').line);
  });

  test('a wait tells what it is for', async () => {
    const { document } = await openSmall(withWaits);
    const words = await until('words under the pointer', async () => {
      const hovers = await vscode.commands.executeCommand<vscode.Hover[]>(
        'vscode.executeHoverProvider',
        document.uri,
        at(document, 'wait 5..20'),
      );
      const text = hovers.flatMap(({ contents }) =>
        contents.map((part) => (typeof part === 'string' ? part : part.value)),
      );
      return text.length > 0 ? text.join('\n') : undefined;
    });
    match(words, /Waits 5–20 min/);
    match(words, /Why: It soaks/);
  });
});

/** The hints of a whole document, once there are as many. */
function hints(document: vscode.TextDocument, count: number): Promise<vscode.InlayHint[]> {
  const all = new vscode.Range(0, 0, document.lineCount, 0);
  return until(`${count} hints`, async () => {
    const found = await vscode.commands.executeCommand<vscode.InlayHint[]>(
      'vscode.executeInlayHintProvider',
      document.uri,
      all,
    );
    return found.length === count ? found : undefined;
  });
}

function textOf(hint: vscode.InlayHint | undefined): string {
  if (!hint) return '';
  return typeof hint.label === 'string' ? hint.label : hint.label.map(({ value }) => value).join('');
}
