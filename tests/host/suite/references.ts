import { deepEqual } from 'node:assert/strict';
import { suite, suiteSetup, suiteTeardown, test } from 'mocha';
import * as vscode from 'vscode';
import { at, until } from './editor.ts';
import { asked, FIRST, openShared, POLICY, removeSharedFiles, shortly, writeSharedFiles } from './shared-files.ts';

suite('references', () => {
  suiteSetup(writeSharedFiles);
  suiteTeardown(removeSharedFiles);

  test('are found in files that nobody has opened', async () => {
    const document = await openShared(POLICY);
    const found = await until('three places', async () => {
      const places = await asked<vscode.Location>(
        'vscode.executeReferenceProvider',
        document,
        at(document, 'small_pack'),
      );
      return places.length === 3 ? places : undefined;
    });
    deepEqual(found.map(({ uri }) => shortly(uri)).sort(), [
      'house/policy.curette',
      'protocols/first.curette',
      'protocols/second.curette',
    ]);
  });

  test('in the same document are highlighted, changes as such', async () => {
    const document = await openShared(FIRST);
    const found = await until('highlights', async () => {
      const marks = await asked<vscode.DocumentHighlight>(
        'vscode.executeDocumentHighlights',
        document,
        at(document, 'pack :'),
      );
      return marks.length === 2 ? marks : undefined;
    });
    deepEqual(
      found.map(({ kind }) => kind),
      [vscode.DocumentHighlightKind.Write, vscode.DocumentHighlightKind.Write],
    );
  });

  test('what a thing is, and what is of a kind, can be gone to', async () => {
    const document = await openShared(FIRST);
    const sort = await until('what it is', async () => {
      const places = await asked<vscode.Location | vscode.LocationLink>(
        'vscode.executeTypeDefinitionProvider',
        document,
        at(document, 'pack :'),
      );
      return places.length > 0 ? places : undefined;
    });
    deepEqual(sort.map(textLine), ['house/policy.curette 10']);
    const policy = await openShared(POLICY);
    const below = await asked<vscode.Location | vscode.LocationLink>(
      'vscode.executeImplementationProvider',
      policy,
      at(policy, 'swab_pack'),
    );
    deepEqual(below.map(textLine), ['house/policy.curette 10']);
  });
});

function textLine(place: vscode.Location | vscode.LocationLink): string {
  const [uri, range] = 'targetUri' in place ? [place.targetUri, place.targetRange] : [place.uri, place.range];
  return `${shortly(uri)} ${range.start.line}`;
}
