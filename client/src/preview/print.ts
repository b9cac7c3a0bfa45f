import type { PreviewResult, PreviewView } from '@curette/shared';
import * as vscode from 'vscode';

/**
 * Opens the page in the system's browser, which can print it: an editor's own frame can not. Where the editor does not run on the
 * machine that somebody sits at, the page is saved instead, and said how it is printed.
 */
export async function openForPrinting(
  context: vscode.ExtensionContext,
  page: PreviewResult,
  view: PreviewView,
): Promise<void> {
  if (vscode.env.uiKind === vscode.UIKind.Desktop && vscode.env.remoteName === undefined) {
    const folder = vscode.Uri.joinPath(context.globalStorageUri, 'print');
    const file = vscode.Uri.joinPath(folder, nameOf(page, view));
    await vscode.workspace.fs.createDirectory(folder);
    await vscode.workspace.fs.writeFile(file, new TextEncoder().encode(page.html));
    if (await vscode.env.openExternal(file)) return;
  }
  const saved = await savePage(page, view);
  if (saved) void vscode.window.showInformationMessage(`Open ${saved.path} in a browser to print it, on A4 or Letter.`);
}

/** Asks where, and writes the page there as it is shown. @returns where it was saved; undefined: it was not */
export async function savePage(page: PreviewResult, view: PreviewView): Promise<vscode.Uri | undefined> {
  const beside = page.declaredIn === null ? undefined : vscode.Uri.joinPath(vscode.Uri.parse(page.declaredIn), '..');
  const chosen = await vscode.window.showSaveDialog({
    title: 'Save the page',
    filters: { 'Web page': ['html'] },
    ...(beside ? { defaultUri: vscode.Uri.joinPath(beside, nameOf(page, view)) } : {}),
  });
  if (!chosen) return undefined;
  await vscode.workspace.fs.writeFile(chosen, new TextEncoder().encode(page.html));
  return chosen;
}

function nameOf({ protocol, case: ofCase }: PreviewResult, view: PreviewView): string {
  return `${[protocol, ofCase, view].filter(Boolean).join('-')}.html`;
}
