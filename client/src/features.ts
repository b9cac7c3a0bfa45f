import * as vscode from 'vscode';
import { provideLibraryText } from './library.ts';
import { provideNewProtocol } from './new-protocol.ts';
import { providePreview } from './preview/preview.ts';
import { provideProblemPages } from './problem-page.ts';
import { provideSample } from './sample.ts';
import type { Server } from './server.ts';

/** Everything the extension does, with a server that runs wherever it can. */
export async function provideFeatures(context: vscode.ExtensionContext, server: Server): Promise<void> {
  context.subscriptions.push(
    providePreview(context, server),
    vscode.commands.registerCommand('curette.restartServer', () => server.restart()),
    provideLibraryText(server),
    provideProblemPages(server),
    provideNewProtocol(server),
    provideSample(context),
  );
  await server.start();
}
