import { deepEqual, equal, ok } from 'node:assert/strict';
import { suite, suiteSetup, suiteTeardown, test } from 'mocha';
import * as vscode from 'vscode';
import { at, until } from './editor.ts';
import { FIRST, openShared, POLICY, removeSharedFiles, shortly, writeSharedFiles } from './shared-files.ts';

suite('symbols', () => {
  suiteSetup(writeSharedFiles);
  suiteTeardown(removeSharedFiles);

  test('of every file, and of the library, are found by a few letters', async () => {
    await openShared(FIRST);
    const find = (query: string) =>
      vscode.commands.executeCommand<vscode.SymbolInformation[]>('vscode.executeWorkspaceSymbolProvider', query);
    const [first] = await until('a symbol', async () => {
      const found = await find('mkrdy');
      return found.length > 0 ? found : undefined;
    });
    equal(first?.name, 'make_ready');
    equal(first && shortly(first.location.uri), 'house/policy.curette');
    const library = await find('allograft');
    ok(library.some(({ location }) => location.uri.scheme === 'curette-library'));
  });

  test('of a document read like the protocol', async () => {
    const document = await openShared(FIRST);
    const [protocol] = await vscode.commands.executeCommand<vscode.DocumentSymbol[]>(
      'vscode.executeDocumentSymbolProvider',
      document.uri,
    );
    const visit = protocol?.children.find(({ name }) => name === 'Only one');
    deepEqual(
      visit?.children.map(({ name, detail }) => [name, detail]),
      [['make ready pack', 'surgeon']],
    );
  });

  test('say who uses a procedure, and what is of a kind', async () => {
    const document = await openShared(POLICY);
    const [item] = await vscode.commands.executeCommand<vscode.CallHierarchyItem[]>(
      'vscode.prepareCallHierarchy',
      document.uri,
      at(document, 'make_ready'),
    );
    // The editor tells of files that have just been written a moment later.
    const calls = await until('two that use it', async () => {
      const found = await vscode.commands.executeCommand<vscode.CallHierarchyIncomingCall[]>(
        'vscode.provideIncomingCalls',
        item,
      );
      return found.length === 2 ? found : undefined;
    });
    deepEqual(calls.map(({ from }) => from.name).sort(), ['first_of_house', 'second_of_house']);
    const used = await vscode.commands.executeCommand<vscode.CallHierarchyOutgoingCall[]>(
      'vscode.provideOutgoingCalls',
      item,
    );
    deepEqual(
      used.map(({ to }) => to.name),
      ['moisten'],
    );
    const [kind] = await vscode.commands.executeCommand<vscode.TypeHierarchyItem[]>(
      'vscode.prepareTypeHierarchy',
      document.uri,
      at(document, 'swab_pack'),
    );
    const below = await vscode.commands.executeCommand<vscode.TypeHierarchyItem[]>('vscode.provideSubtypes', kind);
    deepEqual(
      below.map(({ name }) => name),
      ['small_pack'],
    );
  });
});
