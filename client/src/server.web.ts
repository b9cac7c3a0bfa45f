import * as vscode from 'vscode';
import { BrowserMessageReader, BrowserMessageWriter, LanguageClient } from 'vscode-languageclient/browser';
import { createServerWith } from './language-client.ts';
import type { Server } from './server.ts';

/** A browser's worker; the rest of what a browser has stays out of the client. */
declare class Worker {
  constructor(address: string);
  terminate(): void;
}

/** Prepares the server as a worker of the browser; `start` starts it. It ends with the extension. */
export function createServer(context: vscode.ExtensionContext): Server {
  const module = vscode.Uri.joinPath(context.extensionUri, 'dist/server.web.js').toString(true);
  let worker: Worker | undefined;
  const end = () => worker?.terminate();
  const startWorker = async () => {
    end();
    const started = new Worker(module);
    worker = started;
    return { reader: new BrowserMessageReader(started), writer: new BrowserMessageWriter(started) };
  };
  const server = createServerWith(
    context,
    (options) => new LanguageClient('curette', 'Curette', startWorker, options),
    'reads no disk',
  );
  context.subscriptions.push({ dispose: end });
  return server;
}
