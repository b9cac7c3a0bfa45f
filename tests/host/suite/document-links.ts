import { deepEqual } from 'node:assert/strict';
import { suite, test } from 'mocha';
import * as vscode from 'vscode';
import { openText, until } from './editor.ts';

suite('links', () => {
  test('lead to the library and to where a source is published, and nowhere else', async () => {
    const { document } = await openText(
      'use std/oral\nsource a "A" { identifier "10.1000/182" }\nsource b "B" { identifier "command:workbench.action.quit" }\n',
    );
    const links = await until('links', async () => {
      const found = await vscode.commands.executeCommand<vscode.DocumentLink[]>(
        'vscode.executeLinkProvider',
        document.uri,
        10,
      );
      return found.length >= 2 ? found : undefined;
    });
    deepEqual(
      links.map(({ range, target }) => [document.getText(range), target?.toString(true)]),
      [
        ['std/oral', 'curette-library:/std/oral.curette'],
        ['10.1000/182', 'https://doi.org/10.1000/182'],
      ],
    );
  });
});
