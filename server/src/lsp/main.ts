import { createConnection, LSPErrorCodes, Message, ProposedFeatures } from 'vscode-languageserver/node';
import { serve } from './serve.ts';

// Without a word about how to speak: over standard input and output, as most editors expect.
const SPEAKS = /^--(stdio|node-ipc|pipe|socket)/;
if (!process.argv.some((argument) => SPEAKS.test(argument))) process.argv.push('--stdio');

const connection = createConnection(ProposedFeatures.all, {
  connectionStrategy: {
    // A request taken back before its turn came is not worked on at all.
    cancelUndispatched: (message) =>
      Message.isRequest(message)
        ? { jsonrpc: '2.0', id: message.id, error: { code: LSPErrorCodes.RequestCancelled, message: 'taken back' } }
        : undefined,
  },
});
serve(connection);
connection.listen();
