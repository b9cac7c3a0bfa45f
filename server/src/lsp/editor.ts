import type { DocumentSymbol as LspDocumentSymbol, Position, SymbolInformation } from 'vscode-languageserver';
import { definition } from '../ide/definition.ts';
import { type DocumentSymbol, documentSymbols } from '../ide/document-symbols.ts';
import type { FileId } from '../problems/problem.ts';
import type { Session } from './session.ts';
import { toRange, toSymbolKind } from './to-lsp.ts';

/** Answers the editor's questions, in the editor's terms. */
export function answerEditor(session: Session): void {
  const { connection, workspace, guard } = session;

  connection.onDefinition(({ textDocument: { uri }, position }, token) =>
    guard.answer('a definition', token, () => {
      const id = session.idOf(uri);
      const found = definition(workspace, id, offsetAt(session, id, position));
      if (!found) return null;
      const targets = found.targets.flatMap((target) => {
        const targetUri = session.uriOf(target.file);
        const range = toRange(session.linesOf(target.file), target);
        return targetUri === undefined ? [] : [{ uri: targetUri, range }];
      });
      if (!session.client.links) return targets;
      const originSelectionRange = toRange(session.linesOf(id), found.word);
      return targets.map(({ uri, range }) => ({
        originSelectionRange,
        targetUri: uri,
        targetRange: range,
        targetSelectionRange: range,
      }));
    }),
  );

  connection.onDocumentSymbol(({ textDocument: { uri } }, token) =>
    guard.answer('the outline', token, () => {
      const id = session.idOf(uri);
      const symbols = documentSymbols(workspace, id);
      return session.client.outline
        ? symbols.map((symbol) => toDocumentSymbol(session, id, symbol))
        : symbols.flatMap((symbol) => toSymbolInformation(session, id, uri, symbol));
    }),
  );
}

function toDocumentSymbol(session: Session, id: FileId, symbol: DocumentSymbol): LspDocumentSymbol {
  const lines = session.linesOf(id);
  return {
    name: symbol.name,
    ...(symbol.detail === undefined ? {} : { detail: symbol.detail }),
    kind: toSymbolKind(symbol.sort),
    range: toRange(lines, symbol),
    selectionRange: toRange(lines, symbol.head),
    children: symbol.children.map((child) => toDocumentSymbol(session, id, child)),
  };
}

function toSymbolInformation(session: Session, id: FileId, uri: string, symbol: DocumentSymbol): SymbolInformation[] {
  const range = toRange(session.linesOf(id), symbol);
  return [
    { name: symbol.name, kind: toSymbolKind(symbol.sort), location: { uri, range } },
    ...symbol.children.flatMap((child) => toSymbolInformation(session, id, uri, child)),
  ];
}

function offsetAt(session: Session, id: FileId, position: Position): number {
  return session.linesOf(id).offsetAt(position);
}
