import { equal, fail, ok } from 'node:assert/strict';
import { suite, test } from 'mocha';
import * as vscode from 'vscode';
import { at, problemAt, until } from './editor.ts';

const crooked = `use std/oral
protocol crooked "Crooked" {
version 1.0.0
  status   draft
  visit first "First" {
 rinse patient with mouthwash
      instruct   "Soft food"
  }
}
`;

const straight = `use std/oral
protocol crooked "Crooked" {
  version 1.0.0
  status  draft
  visit first "First" {
    rinse patient with mouthwash
    instruct "Soft food"
  }
}
`;

suite('the layout', () => {
  test('comes with saving, and the cursor stays at its word', async () => {
    const { editor, document } = await openKept('crooked.curette', crooked);
    await ready(document);
    const word = at(document, '"Soft food"');
    editor.selection = new vscode.Selection(word, word);
    await touch(editor);
    ok(await document.save());
    equal(document.getText(), straight);
    equal(document.offsetAt(editor.selection.active), straight.indexOf('"Soft food"'));
    ok(!document.isDirty);
  });

  test('does not come to a file with something that can not be read', async () => {
    const broken = crooked.replace('rinse', '== rinse');
    const { editor, document } = await openKept('broken.curette', broken);
    await ready(document);
    await problemAt(document, '==');
    await touch(editor);
    ok(await document.save());
    equal(document.getText(), broken);
  });

  test('comes to a line that is begun below one that goes on', async () => {
    const { editor, document } = await openKept('typed.curette', straight.replace(' mouthwash', ' mouthwash,'));
    await ready(document);
    const end = at(document, 'mouthwash,').translate(0, 'mouthwash,'.length);
    editor.selection = new vscode.Selection(end, end);
    await vscode.commands.executeCommand('type', { text: '\n' });
    await until('the indentation of the new line', () =>
      document.lineAt(end.line + 1).text === ' '.repeat(8) ? true : undefined,
    );
    equal(editor.selection.active.character, 8);
  });
});

/** Opens a file of the test workspace that is written for the test. */
async function openKept(name: string, content: string) {
  const folder = vscode.workspace.workspaceFolders?.[0] ?? fail('no folder is open');
  const uri = vscode.Uri.joinPath(folder.uri, name);
  await vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(content));
  const editor = await vscode.window.showTextDocument(uri);
  return { editor, document: editor.document };
}

/** Until the server answers about a document. */
function ready(document: vscode.TextDocument): Promise<unknown> {
  return until('an outline', async () => {
    const found = await vscode.commands.executeCommand<unknown[] | undefined>(
      'vscode.executeDocumentSymbolProvider',
      document.uri,
    );
    return found && found.length > 0 ? found : undefined;
  });
}

/** A change that is no change: what is not dirty is not saved. */
async function touch(editor: vscode.TextEditor): Promise<void> {
  const end = editor.document.lineAt(editor.document.lineCount - 1).range.end;
  ok(await editor.edit((edit) => edit.insert(end, ' ')));
  ok(await editor.edit((edit) => edit.delete(new vscode.Range(end, end.translate(0, 1)))));
}
