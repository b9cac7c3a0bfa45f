import { CodeActionKind, type ServerCapabilities, TextDocumentSyncKind } from 'vscode-languageserver/node';
import type { Client } from './session.ts';

/** What the server tells the editor it can do. */
export function capabilities(client: Client): ServerCapabilities {
  return {
    positionEncoding: 'utf-16',
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
    hoverProvider: true,
    completionProvider: { triggerCharacters: [' ', '.', '/'] },
    definitionProvider: true,
    documentSymbolProvider: true,
    codeActionProvider: { codeActionKinds: [CodeActionKind.QuickFix] },
    inlayHintProvider: { resolveProvider: true },
    codeLensProvider: { resolveProvider: true },
    workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
    ...(client.push
      ? {}
      : { diagnosticProvider: { identifier: 'curette', interFileDependencies: true, workspaceDiagnostics: false } }),
  };
}
