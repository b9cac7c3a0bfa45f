import { CodeActionKind, type ServerCapabilities, TextDocumentSyncKind } from 'vscode-languageserver';
import { FIX_SPELLING } from './code-actions.ts';
import { movable } from './file-operations.ts';
import { typedSigns } from './formatting.ts';
import { legend } from './semantic-tokens.ts';
import type { Client } from './session.ts';

/** What the server tells the editor it can do. */
export function capabilities(client: Client): ServerCapabilities {
  return {
    positionEncoding: 'utf-16',
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
    hoverProvider: true,
    completionProvider: { triggerCharacters: [' ', '.', '/', '(', ':'], resolveProvider: true },
    definitionProvider: true,
    documentSymbolProvider: true,
    referencesProvider: true,
    documentHighlightProvider: true,
    typeDefinitionProvider: true,
    implementationProvider: true,
    renameProvider: { prepareProvider: true },
    workspaceSymbolProvider: true,
    callHierarchyProvider: true,
    typeHierarchyProvider: true,
    documentFormattingProvider: true,
    documentRangeFormattingProvider: true,
    documentOnTypeFormattingProvider: {
      firstTriggerCharacter: typedSigns.first,
      moreTriggerCharacter: [...typedSigns.more],
    },
    codeActionProvider: {
      codeActionKinds: [CodeActionKind.QuickFix, FIX_SPELLING],
      resolveProvider: client.actionResolve,
    },
    semanticTokensProvider: { legend, full: { delta: true }, range: true },
    foldingRangeProvider: true,
    selectionRangeProvider: true,
    documentLinkProvider: {},
    signatureHelpProvider: { triggerCharacters: [' '], retriggerCharacters: [','] },
    inlayHintProvider: { resolveProvider: true },
    codeLensProvider: { resolveProvider: true },
    workspace: {
      workspaceFolders: { supported: true, changeNotifications: true },
      fileOperations: { willRename: movable, didRename: movable, didDelete: movable },
    },
    ...(client.push
      ? {}
      : { diagnosticProvider: { identifier: 'curette', interFileDependencies: true, workspaceDiagnostics: true } }),
  };
}
