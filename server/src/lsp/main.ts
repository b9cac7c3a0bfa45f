import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { diskFiles } from '../workspace/disk-files.ts';
import { connectionOptions } from './connection-options.ts';
import type { Strays } from './guard.ts';
import { serve } from './serve.ts';

// Without a word about how to speak: over standard input and output, as most editors expect.
const SPEAKS = /^--(stdio|node-ipc|pipe|socket)/;
if (!process.argv.some((argument) => SPEAKS.test(argument))) process.argv.push('--stdio');

const strays: Strays = (tell) => {
  process.on('unhandledRejection', (error) => tell('a promise', error));
  process.on('uncaughtException', (error) => {
    // A pipe closed at the other end: the editor has gone, and its messages with it.
    if ('code' in error && (error.code === 'EPIPE' || error.code === 'ERR_IPC_CHANNEL_CLOSED')) process.exit(1);
    tell('the server', error);
  });
};

const connection = createConnection(ProposedFeatures.all, connectionOptions);
serve(connection, { disk: diskFiles, strays });
connection.listen();
