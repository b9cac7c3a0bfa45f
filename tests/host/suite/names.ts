import { deepEqual, equal, match, ok } from 'node:assert/strict';
import { suite, test } from 'mocha';
import * as vscode from 'vscode';
import { at, openSmall, until } from './editor.ts';

suite('names', () => {
  test('tell what they stand for under the pointer', async () => {
    const { document } = await openSmall();
    const words = await until('words under the pointer', async () => {
      const hovers = await ask<vscode.Hover[]>('vscode.executeHoverProvider', document, at(document, 'grain by'));
      const text = hovers.flatMap(({ contents }) =>
        contents.map((part) => (typeof part === 'string' ? part : part.value)),
      );
      return text.length > 0 ? text.join('\n') : undefined;
    });
    match(words, /Granules/);
  });

  test('are offered where they fit', async () => {
    const editor = await openSmall();
    const { document } = editor;
    const start = at(document, 'wet grain').translate(0, 'wet '.length);
    const labels = await until('offers', async () => {
      const list = await ask<vscode.CompletionList>('vscode.executeCompletionItemProvider', document, start);
      const found = list.items.map(({ label }) => (typeof label === 'string' ? label : label.label));
      return found.includes('grain') ? found : undefined;
    });
    ok(!labels.includes('surgeon'), `a person does not fit where a material does: ${labels.join(', ')}`);
  });

  test('lead to where they are declared in the same file', async () => {
    const { document } = await openSmall();
    const [place] = await definitions(document, 'granules\n');
    equal(place?.uri.toString(), document.uri.toString());
    equal(place?.range.start.line, at(document, 'material granules').line);
  });

  test('lead into the shipped library, which opens read-only', async () => {
    const { document } = await openSmall();
    const [place] = await definitions(document, 'surgeon }');
    equal(place?.uri.scheme, 'curette-library');
    const library = await vscode.workspace.openTextDocument(place.uri);
    equal(library.languageId, 'curette');
    equal(library.getText(place.range), 'surgeon');
    // The library itself has no problems to show to somebody who only looks something up.
    deepEqual(vscode.languages.getDiagnostics(place.uri), []);
  });

  test('make the outline of the document', async () => {
    const { document } = await openSmall();
    const symbols = await until('an outline', async () => {
      const found = await vscode.commands.executeCommand<vscode.DocumentSymbol[]>(
        'vscode.executeDocumentSymbolProvider',
        document.uri,
      );
      return found && found.length > 0 ? found : undefined;
    });
    const names = symbols.map(({ name }) => name);
    for (const name of ['filler', 'wet', 'granules', 'small'])
      ok(names.includes(name), `${name} is not among ${names}`);
  });
});

/** Where the name at these words is declared. */
function definitions(document: vscode.TextDocument, words: string): Promise<vscode.Location[]> {
  return until('a place to go to', async () => {
    const found = await ask<(vscode.Location | vscode.LocationLink)[]>(
      'vscode.executeDefinitionProvider',
      document,
      at(document, words),
    );
    const places = found.map((place) =>
      'targetUri' in place
        ? new vscode.Location(place.targetUri, place.targetSelectionRange ?? place.targetRange)
        : place,
    );
    return places.length > 0 ? places : undefined;
  });
}

function ask<Answer>(command: string, document: vscode.TextDocument, place: vscode.Position): Thenable<Answer> {
  return vscode.commands.executeCommand<Answer>(command, document.uri, place);
}
