import { CodeActionKind, type ServerCapabilities, TextDocumentSyncKind } from 'vscode-languageserver/node';
import { typedSigns } from './formatting.ts';
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
    documentFormattingProvider: true,
    documentRangeFormattingProvider: true,
    documentOnTypeFormattingProvider: {
      firstTriggerCharacter: typedSigns.first,
      moreTriggerCharacter: [...typedSigns.more],
    },
    codeActionProvider: { codeActionKinds: [CodeActionKind.QuickFix] },
    inlayHintProvider: { resolveProvider: true },
    codeLensProvider: { resolveProvider: true },
    workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
    ...(client.push
      ? {}
      : { diagnosticProvider: { identifier: 'curette', interFileDependencies: true, workspaceDiagnostics: false } }),
  };
}
