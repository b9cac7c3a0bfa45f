import { deepEqual } from 'node:assert/strict';
import { suite, test } from 'mocha';
import * as vscode from 'vscode';
import { at, openSmall, until } from './editor.ts';

suite('selections', () => {
  test('grow from a word to its step and on to the file', async () => {
    const { document } = await openSmall();
    const place = at(document, 'grain by');
    const selected = await until('selections', async () => {
      const [found] = await vscode.commands.executeCommand<(vscode.SelectionRange | undefined)[]>(
        'vscode.executeSelectionRangeProvider',
        document.uri,
        [place],
      );
      const texts: string[] = [];
      for (let range = found; range; range = range.parent) texts.push(document.getText(range.range));
      return texts.includes('wet grain by surgeon') ? texts : undefined;
    });
    deepEqual([selected[0], selected.at(-1)], ['grain', document.getText()]);
  });
});
