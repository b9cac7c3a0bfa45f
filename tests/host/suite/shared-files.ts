import { fail } from 'node:assert/strict';
import * as vscode from 'vscode';

/** A file of the house, and two protocols that bring it in; written into the open folder for tests about several files. */
export const POLICY = 'shared-files/house/policy.curette';
export const FIRST = 'shared-files/protocols/first.curette';
export const SECOND = 'shared-files/protocols/second.curette';

const policy = `kind swab_pack "swab pack" is material {
  states dry -> wetted
}
action moisten "Moisten" (swab_pack s) {
  makes s wetted
  takes 1 min
}
procedure make_ready "Make ready" (swab_pack s) {
  moisten s
}
material small_pack "Small pack" is swab_pack
`;

const protocol = (name: string) => `use ../house/policy

protocol ${name} "Of the house" {
  version 1.0.0
  status  draft
  owner   "Test house"
  team { surgeon }
  materials {
    pack : small_pack
  }
  visit only_one "Only one" {
    make_ready pack by surgeon
  }
}
`;

export async function writeSharedFiles(): Promise<void> {
  const bytes = new TextEncoder();
  for (const [path, text] of [
    [POLICY, policy],
    [FIRST, protocol('first_of_house')],
    [SECOND, protocol('second_of_house')],
  ] as const)
    await vscode.workspace.fs.writeFile(addressOf(path), bytes.encode(text));
}

/** Takes them away again, what is open of them as well. */
export async function removeSharedFiles(): Promise<void> {
  for (const document of vscode.workspace.textDocuments)
    if (document.isDirty && document.uri.path.includes('/shared-files/')) await document.save();
  await vscode.commands.executeCommand('workbench.action.closeAllEditors');
  await vscode.workspace.fs.delete(addressOf('shared-files'), { recursive: true });
}

export function addressOf(path: string): vscode.Uri {
  const folder = vscode.workspace.workspaceFolders?.[0] ?? fail('no folder is open');
  return vscode.Uri.joinPath(folder.uri, path);
}

export async function openShared(path: string): Promise<vscode.TextDocument> {
  const document = await vscode.workspace.openTextDocument(addressOf(path));
  await vscode.window.showTextDocument(document);
  return document;
}

/** What a command of the editor answers about a place, as soon as it has one that is not empty. */
export async function asked<Item>(
  command: string,
  document: vscode.TextDocument,
  place: vscode.Position,
): Promise<readonly Item[]> {
  return (await vscode.commands.executeCommand<Item[] | undefined>(command, document.uri, place)) ?? [];
}

/** The last parts of an address, as it is written in these tests. */
export function shortly(uri: vscode.Uri): string {
  return uri.path.split('/').slice(-2).join('/');
}
