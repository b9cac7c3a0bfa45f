import { deepEqual, match, ok, rejects } from 'node:assert/strict';
import { suite, suiteSetup, suiteTeardown, test } from 'mocha';
import * as vscode from 'vscode';
import { at } from './editor.ts';
import {
  addressOf,
  FIRST,
  openShared,
  POLICY,
  removeSharedFiles,
  SECOND,
  shortly,
  writeSharedFiles,
} from './shared-files.ts';

suite('another name', () => {
  suiteSetup(writeSharedFiles);
  suiteTeardown(removeSharedFiles);

  test('is given in every file at once', async () => {
    const document = await openShared(POLICY);
    const edit = await rename(document, 'small_pack', 'little_pack');
    deepEqual(
      edit
        .entries()
        .map(([uri]) => shortly(uri))
        .sort(),
      ['house/policy.curette', 'protocols/first.curette', 'protocols/second.curette'],
    );
    ok(await vscode.workspace.applyEdit(edit));
    await vscode.workspace.saveAll();
    for (const path of [POLICY, FIRST, SECOND]) match(await textOf(path), /little_pack/);
    const back = await rename(document, 'little_pack', 'small_pack');
    ok(await vscode.workspace.applyEdit(back));
    await vscode.workspace.saveAll();
    for (const path of [POLICY, FIRST, SECOND]) match(await textOf(path), /small_pack/);
  });

  test('is refused with a reason where it is the library’s, or would mean something else', async () => {
    const document = await openShared(FIRST);
    await rejects(rename(document, 'surgeon }', 'operator'), /shipped library/);
    await rejects(rename(document, 'pack :', 'two words'), /is no name/);
    const policy = await openShared(POLICY);
    await rejects(rename(policy, 'swab_pack', 'small_pack'), /is taken/);
  });
});

async function rename(document: vscode.TextDocument, words: string, newName: string): Promise<vscode.WorkspaceEdit> {
  return vscode.commands.executeCommand<vscode.WorkspaceEdit>(
    'vscode.executeDocumentRenameProvider',
    document.uri,
    at(document, words),
    newName,
  );
}

async function textOf(path: string): Promise<string> {
  return (await vscode.workspace.openTextDocument(addressOf(path))).getText();
}
