import { DocumentHighlightKind, type Position } from 'vscode-languageserver';
import { documentHighlights } from '../ide/document-highlight.ts';
import { references } from '../ide/references.ts';
import { typeDefinition } from '../ide/type-definition.ts';
import { implementations } from '../ide/type-hierarchy.ts';
import type { Session } from './session.ts';
import { toRange } from './to-lsp.ts';
import { answerFromAllFiles, toLocation } from './whole-workspace.ts';

/** Answers where something is named, and where what it is stands. */
export function answerReferences(session: Session): void {
  const { connection, workspace, guard, files } = session;
  const placeOf = (uri: string, position: Position) => {
    const id = session.idOf(uri);
    return { id, offset: session.linesOf(id).offsetAt(position) };
  };

  connection.onReferences(({ textDocument: { uri }, position, context }, token) =>
    answerFromAllFiles(session, 'references', token, function* () {
      const { id, offset } = placeOf(uri, position);
      const found = yield* references(workspace, files, id, offset, context.includeDeclaration);
      return found.flatMap((at) => toLocation(session, at));
    }),
  );

  connection.onDocumentHighlight(({ textDocument: { uri }, position }, token) =>
    guard.answer('highlights', token, () => {
      const { id, offset } = placeOf(uri, position);
      const lines = session.linesOf(id);
      return documentHighlights(workspace, id, offset).map((at) => ({
        range: toRange(lines, at),
        kind: at.access === 'write' ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
      }));
    }),
  );

  connection.onTypeDefinition(({ textDocument: { uri }, position }, token) =>
    guard.answer('what it is', token, () => {
      const { id, offset } = placeOf(uri, position);
      return (typeDefinition(workspace, id, offset)?.targets ?? []).flatMap((at) => toLocation(session, at));
    }),
  );

  connection.onImplementation(({ textDocument: { uri }, position }, token) =>
    answerFromAllFiles(session, 'what is of a kind', token, function* () {
      const { id, offset } = placeOf(uri, position);
      const found = yield* implementations(workspace, files, id, offset);
      return found.flatMap((at) => toLocation(session, at));
    }),
  );
}
