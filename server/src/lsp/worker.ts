import {
  BrowserMessageReader,
  BrowserMessageWriter,
  createConnection,
  ProposedFeatures,
} from 'vscode-languageserver/browser';
import { connectionOptions } from './connection-options.ts';
import type { Strays } from './guard.ts';
import { serve } from './serve.ts';

/** What a worker has at hand; the browser's types stay out of the server. */
interface Worker {
  addEventListener(
    name: string,
    listener: (event: { readonly reason?: unknown; readonly error?: unknown }) => void,
  ): void;
}

declare const self: Worker & ConstructorParameters<typeof BrowserMessageReader>[0];

/** There is no disk: the editor tells what stands in its files. */
const worker: Worker = self;
const strays: Strays = (tell) => {
  worker.addEventListener('unhandledrejection', ({ reason }) => tell('a promise', reason));
  worker.addEventListener('error', ({ error }) => tell('the server', error));
};

const connection = createConnection(
  ProposedFeatures.all,
  new BrowserMessageReader(self),
  new BrowserMessageWriter(self),
  connectionOptions,
);
serve(connection, { disk: undefined, strays });
connection.listen();
