import { equal, match } from 'node:assert/strict';
import { suite, test } from 'mocha';
import * as vscode from 'vscode';
import { at, openSmall, until } from './editor.ts';

suite('slots', () => {
  test('of an action are told while its step is typed', async () => {
    const editor = await openSmall();
    const { document } = editor;
    await editor.edit((edit) => edit.insert(at(document, 'wet grain'), 'wet \n    '));
    const place = at(document, 'wet \n').translate(0, 4);
    const help = await until('the slots', async () => {
      const found = await vscode.commands.executeCommand<vscode.SignatureHelp | undefined>(
        'vscode.executeSignatureHelpProvider',
        document.uri,
        place,
      );
      return found && found.signatures.length > 0 ? found : undefined;
    });
    match(help.signatures[help.activeSignature]?.label ?? '', /^wet \(/);
    equal(help.activeParameter, 0);
  });
});
