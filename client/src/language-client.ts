import { heldFilesNotification, initializationOptions } from '@curette/shared';
import * as vscode from 'vscode';
import { type BaseLanguageClient, type LanguageClientOptions, State } from 'vscode-languageclient';
import { problemPageAddress } from './problem-page.ts';
import type { Server } from './server.ts';
import { followFiles } from './workspace-files.ts';

/**
 * The server as the client sees it, wherever it runs.
 * @param make makes the connection to a server of its own
 * @param disk whether the server reads files of the scheme `file:` by itself
 */
export function createServerWith(
  context: vscode.ExtensionContext,
  make: (options: LanguageClientOptions) => BaseLanguageClient,
  disk: 'reads the disk' | 'reads no disk',
): Server {
  const log = vscode.window.createOutputChannel('Curette', { log: true });
  const files = followFiles(({ scheme }) => !(disk === 'reads the disk' && scheme === 'file'));
  const client = make({
    documentSelector: [{ language: 'curette' }],
    outputChannel: log,
    initializationOptions: () =>
      initializationOptions.parse({ problemPage: problemPageAddress('{code}'), files: files.known() }),
  });

  const started = new vscode.EventEmitter<void>();
  client.onDidChangeState(({ newState }) => {
    if (newState !== State.Running) return;
    started.fire();
  });
  files.onChanged((changed) => {
    // What comes before it runs goes along with its start.
    if (client.state === State.Running) void client.sendNotification(heldFilesNotification.method, { files: changed });
  });

  const orTell = async (work: () => Promise<void>) => {
    try {
      await work();
    } catch (error) {
      log.error(error instanceof Error ? error : String(error));
      void tellNotChecked(log);
    }
  };

  const server: Server = {
    start: () =>
      orTell(async () => {
        await files.read();
        await client.start();
      }),
    restart: () =>
      orTell(async () => {
        if (client.isRunning()) await client.stop();
        await client.start();
      }),
    request: async ({ method, params, result }, value) => {
      if (client.state === State.Stopped || client.state === State.StartFailed) {
        throw new Error(
          'the language server is not running. The command "Curette: Restart Language Server" starts it.',
        );
      }
      return result.parse(await client.sendRequest(method, params.parse(value)));
    },
    onNotification: ({ method, params }, handler) =>
      client.onNotification(method, (value: unknown) => {
        const parsed = params.safeParse(value);
        if (parsed.success) handler(parsed.data);
        else log.error(`The server sent a ${method} that cannot be read: ${parsed.error.message}`);
      }),
    onStarted: started.event,
    dispose: () => {
      started.dispose();
      files.dispose();
      void client.dispose().finally(() => log.dispose());
    },
  };
  context.subscriptions.push(server);
  return server;
}

async function tellNotChecked(log: vscode.LogOutputChannel): Promise<void> {
  const show = 'Show log';
  const chosen = await vscode.window.showErrorMessage(
    'The Curette language server could not be started: protocols are not being checked.',
    show,
  );
  if (chosen === show) log.show();
}
