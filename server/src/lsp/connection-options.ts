import { type ConnectionOptions, LSPErrorCodes, Message } from 'vscode-languageserver';

/** How messages are taken up, wherever the server runs. */
export const connectionOptions: ConnectionOptions = {
  connectionStrategy: {
    // A request taken back before its turn came is not worked on at all.
    cancelUndispatched: (message) =>
      Message.isRequest(message)
        ? { jsonrpc: '2.0', id: message.id, error: { code: LSPErrorCodes.RequestCancelled, message: 'taken back' } }
        : undefined,
  },
};
