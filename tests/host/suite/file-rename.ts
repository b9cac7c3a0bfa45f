import { match, ok } from 'node:assert/strict';
import { suite, suiteSetup, suiteTeardown, test } from 'mocha';
import * as vscode from 'vscode';
import { until } from './editor.ts';
import { addressOf, FIRST, openShared, POLICY, removeSharedFiles, SECOND, writeSharedFiles } from './shared-files.ts';

suite('files that move', () => {
  suiteSetup(writeSharedFiles);
  suiteTeardown(removeSharedFiles);

  test('are followed by every line that brings them in', async () => {
    const document = await openShared(FIRST);
    await move(POLICY, 'shared-files/rules.curette');
    await until('the line in the open file', () => (/use \.\.\/rules$/m.test(document.getText()) ? true : undefined));
    await vscode.workspace.saveAll();
    match(await textOf(SECOND), /use \.\.\/rules$/m);
    await noneMissing(document);
  });

  test('with their folder take their own lines with them', async () => {
    await move('shared-files/protocols', 'shared-files/old/protocols');
    const document = await openShared('shared-files/old/protocols/second.curette');
    match(document.getText(), /use \.\.\/\.\.\/rules$/m);
    await vscode.workspace.saveAll();
    await noneMissing(document);
  });

  test('or change on disk are checked anew, with what brings them in', async () => {
    const document = await openShared('shared-files/old/protocols/second.curette');
    const rules = addressOf('shared-files/rules.curette');
    const before = await vscode.workspace.fs.readFile(rules);
    const text = new TextDecoder().decode(before).replaceAll('make_ready', 'get_ready');
    await vscode.workspace.fs.writeFile(rules, new TextEncoder().encode(text));
    await until('a problem with the step', () => (has(document, 'unknown_action') ? true : undefined));
    await vscode.workspace.fs.writeFile(rules, before);
    await until('no problem with the step', () => (has(document, 'unknown_action') ? undefined : true));
  });
});

async function move(from: string, to: string): Promise<void> {
  const edit = new vscode.WorkspaceEdit();
  edit.renameFile(addressOf(from), addressOf(to));
  ok(await vscode.workspace.applyEdit(edit));
}

async function textOf(path: string): Promise<string> {
  return (await vscode.workspace.openTextDocument(addressOf(path))).getText();
}

async function noneMissing(document: vscode.TextDocument): Promise<void> {
  await until('no file to be missing', () => (has(document, 'missing_file') ? undefined : true));
}

function has(document: vscode.TextDocument, wanted: string): boolean {
  return vscode.languages.getDiagnostics(document.uri).some(({ code }) => {
    const name = typeof code === 'object' ? code.value : code;
    return name === wanted;
  });
}
