import { initializationOptions } from '@curette/shared';
import * as vscode from 'vscode';
import {
  LanguageClient,
  type LanguageClientOptions,
  type ServerOptions,
  State,
  TransportKind,
} from 'vscode-languageclient/node';
import type * as z from 'zod';
import { problemPageAddress } from './problem-page.ts';

/** The language server as the rest of the client sees it. */
export interface Server extends vscode.Disposable {
  readonly start: () => Promise<void>;
  readonly restart: () => Promise<void>;
  /** Asks, and validates the answer. @throws when the server is not running, fails, or answers with something else */
  readonly request: <Params extends z.ZodType, Result extends z.ZodType>(
    request: { readonly method: string; readonly params: Params; readonly result: Result },
    params: z.input<Params>,
  ) => Promise<z.output<Result>>;
  readonly onNotification: <Params extends z.ZodType>(
    notification: { readonly method: string; readonly params: Params },
    handler: (params: z.output<Params>) => void,
  ) => vscode.Disposable;
  /** Fires whenever the server has started, the first time included. */
  readonly onStarted: vscode.Event<void>;
}

/** Room for what is soon thrown away, MiB: with no more, memory stays a fifth smaller, at the same speed. */
const SPARING = ['--max-semi-space-size=4'];

/** Prepares the server's process; `start` starts it. It ends with the extension. */
export function createServer(context: vscode.ExtensionContext): Server {
  const process = {
    module: context.asAbsolutePath('dist/start.js'),
    transport: TransportKind.ipc,
    args: [`--code-cache=${context.globalStorageUri.fsPath}`],
  };
  const serverOptions: ServerOptions = {
    run: { ...process, options: { execArgv: SPARING } },
    debug: { ...process, options: { execArgv: [...SPARING, '--nolazy', '--inspect=6009'] } },
  };
  const log = vscode.window.createOutputChannel('Curette', { log: true });
  const clientOptions: LanguageClientOptions = {
    documentSelector: [{ language: 'curette' }],
    outputChannel: log,
    initializationOptions: initializationOptions.parse({ problemPage: problemPageAddress('{code}') }),
  };
  const client = new LanguageClient('curette', 'Curette', serverOptions, clientOptions);

  const started = new vscode.EventEmitter<void>();
  client.onDidChangeState(({ newState }) => {
    if (newState === State.Running) started.fire();
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
    start: () => orTell(() => client.start()),
    restart: () => orTell(() => (client.isRunning() ? client.restart() : client.start())),
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
