import * as vscode from 'vscode';
import { showChecklist } from './checklist.ts';
import { provideLibraryText } from './library.ts';
import { provideProblemPages } from './problem-page.ts';
import { createServer } from './server.ts';

/** Called by the editor when the first protocol is opened. */
export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const server = createServer(context);
  context.subscriptions.push(
    vscode.commands.registerCommand('curette.showChecklist', (uri?: vscode.Uri) => showChecklist(context, server, uri)),
    vscode.commands.registerCommand('curette.restartServer', () => server.restart()),
    provideLibraryText(server),
    provideProblemPages(server),
  );
  await server.start();
}
