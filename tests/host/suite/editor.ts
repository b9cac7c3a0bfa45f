import { fail } from 'node:assert/strict';
import * as vscode from 'vscode';

/** Opens a new, unsaved protocol with this text in the editor. */
export async function openText(content: string): Promise<vscode.TextEditor> {
  return vscode.window.showTextDocument(await vscode.workspace.openTextDocument({ language: 'curette', content }));
}

/** Asks again and again until `ask` answers something other than undefined. Fails after 20 s, saying what was awaited. */
export async function until<Value>(
  what: string,
  ask: () => Promise<Value | undefined> | Value | undefined,
): Promise<Value> {
  const deadline = Date.now() + 20_000;
  while (Date.now() < deadline) {
    const value = await ask();
    if (value !== undefined) return value;
    await new Promise((resolve) => setTimeout(resolve, 25));
  }
  return fail(`waited in vain for ${what}`);
}
