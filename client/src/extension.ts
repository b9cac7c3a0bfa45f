import * as vscode from 'vscode';
import { provideLibraryText } from './library.ts';
import { providePreview } from './preview/preview.ts';
import { provideProblemPages } from './problem-page.ts';
import { createServer } from './server.ts';

/** Called by the editor when the first protocol is opened. */
export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const server = createServer(context);
  context.subscriptions.push(
    providePreview(context, server),
    vscode.commands.registerCommand('curette.restartServer', () => server.restart()),
    provideLibraryText(server),
    provideProblemPages(server),
  );
  await server.start();
}
