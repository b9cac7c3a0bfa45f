import { ok } from 'node:assert/strict';
import { suite, test } from 'mocha';
import * as vscode from 'vscode';
import { at, openSmall, until } from './editor.ts';

suite('folding', () => {
  test('puts a visit away, and leaves its closing brace in sight', async () => {
    const { document } = await openSmall();
    const first = at(document, 'visit first').line;
    const ranges = await until('what may be put away', async () => {
      const found = await vscode.commands.executeCommand<vscode.FoldingRange[]>(
        'vscode.executeFoldingRangeProvider',
        document.uri,
      );
      return found?.some(({ start }) => start === first) ? found : undefined;
    });
    const visit = ranges.find(({ start }) => start === first);
    ok(visit);
    const below = document.lineAt(visit.end + 1).text.trim();
    ok(below === '}', `below the visit stands "${below}"`);
  });
});
