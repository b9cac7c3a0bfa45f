import { fail } from 'node:assert/strict';
import * as vscode from 'vscode';

/** Opens a file of the test workspace. */
export async function openFile(name: string): Promise<vscode.TextEditor> {
  const folder = vscode.workspace.workspaceFolders?.[0] ?? fail('no folder is open');
  return vscode.window.showTextDocument(vscode.Uri.joinPath(folder.uri, name));
}

/** Opens `small.curette` as a new unsaved protocol, with some of its words changed. */
export async function openSmall(change: (text: string) => string = (text) => text): Promise<vscode.TextEditor> {
  const { document } = await openFile('small.curette');
  return openText(change(document.getText()));
}

/** Opens a new, unsaved protocol with this text in the editor. */
export async function openText(content: string): Promise<vscode.TextEditor> {
  return vscode.window.showTextDocument(await vscode.workspace.openTextDocument({ language: 'curette', content }));
}

/** Place of the first character of these words. */
export function at(document: vscode.TextDocument, words: string): vscode.Position {
  const offset = document.getText().indexOf(words);
  return offset >= 0 ? document.positionAt(offset) : fail(`"${words}" is not in the document`);
}

/** Asks again and again until `ask` answers something other than undefined. Fails after 20 s, saying what was awaited. */
export async function until<Value>(
  what: string,
  ask: () => Promise<Value | undefined> | Thenable<Value | undefined> | Value | undefined,
): Promise<Value> {
  const deadline = Date.now() + 20_000;
  while (Date.now() < deadline) {
    const value = await ask();
    if (value !== undefined) return value;
    await new Promise((resolve) => setTimeout(resolve, 25));
  }
  return fail(`waited in vain for ${what}`);
}

/** Problems of a document that underline exactly these words. */
export function problemsAt(document: vscode.TextDocument, words: string): vscode.Diagnostic[] {
  return vscode.languages.getDiagnostics(document.uri).filter(({ range }) => document.getText(range) === words);
}

/** Waits for a problem that underlines exactly these words. */
export function problemAt(document: vscode.TextDocument, words: string): Promise<vscode.Diagnostic> {
  return until(`a problem at "${words}"`, () => problemsAt(document, words)[0]);
}
