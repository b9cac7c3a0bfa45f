/**
 * Runs inside the editor: when the installed extension starts, and how long that takes. What it finds is written as JSON to the
 * file that `CURETTE_HOST_REPORT` names.
 */
import { renameSync, writeFileSync } from 'node:fs';
import { setTimeout as sleep } from 'node:timers/promises';
import * as vscode from 'vscode';
import type { Activation } from './activation-report.ts';

/** Long enough for whatever starts with a window to have started, ms. */
const settled = 2000;
const deadline = 30_000;
/** By then the server has kept what it compiled, ms; this window ends with the report. */
const compiled = 4000;

export async function run(): Promise<void> {
  const file = process.env.CURETTE_HOST_REPORT;
  if (file === undefined) throw new Error('CURETTE_HOST_REPORT names no file.');
  const report = await look().catch((error: unknown): Activation => ({ kind: 'failed', why: String(error) }));
  await sleep(compiled);
  // In one go: whoever waits for it reads it as soon as it is there.
  writeFileSync(`${file}.part`, JSON.stringify(report));
  renameSync(`${file}.part`, file);
}

async function look(): Promise<Activation> {
  const extension = vscode.extensions.getExtension('curette.curette-vscode');
  const folder = vscode.workspace.workspaceFolders?.[0]?.uri;
  if (extension === undefined || folder === undefined)
    throw new Error(extension ? 'no folder is open' : 'it is not there');

  await vscode.window.showTextDocument(vscode.Uri.joinPath(folder, 'notes.txt'));
  await sleep(settled);
  const activeWithText = extension.isActive;

  const protocol = vscode.Uri.joinPath(folder, 'examples/drafts/grafted_socket_draft.curette');
  const began = performance.now();
  const problems = new Promise<number>((resolve) => {
    vscode.languages.onDidChangeDiagnostics(({ uris }) => {
      const ours = uris.some((uri) => uri.toString() === protocol.toString());
      if (ours && vscode.languages.getDiagnostics(protocol).length > 0) resolve(performance.now() - began);
    });
  });
  const active = (async () => {
    while (!extension.isActive) {
      if (performance.now() - began > deadline) throw new Error('it did not start');
      await sleep(1);
    }
    return performance.now() - began;
  })();
  await vscode.window.showTextDocument(protocol);
  const toActive = await active;
  const toProblems = await Promise.race([
    problems,
    sleep(deadline).then(() => {
      throw new Error('no problems were shown');
    }),
  ]);
  return {
    kind: 'seen',
    activeWithText,
    path: extension.extensionPath,
    toActive,
    toProblems,
    codes: vscode.languages
      .getDiagnostics(protocol)
      .map(({ code }) => String(typeof code === 'object' ? code.value : code)),
  };
}
