import {
  type CodeAction,
  CodeActionKind,
  DocumentDiagnosticReportKind,
  type Position,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver/node';
import type { Replacement } from '../ide/apply-edit.ts';
import { codeActions } from '../ide/code-actions.ts';
import type { FileId } from '../problems/problem.ts';
import { unlessTakenBack } from './guard.ts';
import type { Publisher } from './publish.ts';
import type { Session } from './session.ts';
import { toRange } from './to-lsp.ts';

/** Answers the editor's questions, in the editor's terms. */
export function answerEditor(session: Session, publisher: Publisher): void {
  const { connection, workspace } = session;

  connection.onCodeAction(({ textDocument: { uri }, range, context }, token) =>
    unlessTakenBack(token, () => {
      if (context.only && !context.only.some((kind) => isWithin(CodeActionKind.QuickFix, kind))) return [];
      const id = session.idOf(uri);
      const start = offsetAt(session, id, range.start);
      const end = offsetAt(session, id, range.end);
      return codeActions(workspace, id, start, end).flatMap((action): CodeAction[] => {
        const edit = toWorkspaceEdit(session, action.changes);
        if (!edit) return [];
        const at = toRange(session.linesOf(id), action.mends);
        const mended = context.diagnostics.filter(
          ({ code, range }) =>
            code === action.mends.name &&
            range.start.line === at.start.line &&
            range.start.character === at.start.character,
        );
        return [
          {
            title: action.title,
            kind: CodeActionKind.QuickFix,
            isPreferred: action.preferred,
            ...(mended.length > 0 ? { diagnostics: mended } : {}),
            edit,
          },
        ];
      });
    }),
  );

  if (!session.client.push)
    connection.languages.diagnostics.on(({ textDocument: { uri } }) => ({
      kind: DocumentDiagnosticReportKind.Full,
      items: [...publisher.diagnosticsOf(uri)],
    }));
}

function offsetAt(session: Session, id: FileId, position: Position): number {
  return session.linesOf(id).offsetAt(position);
}

/** Whether a kind of action is asked for by another: `quickfix` by `quickfix`, and by the empty one that stands for all. */
function isWithin(kind: string, asked: string): boolean {
  return asked === '' || kind === asked || kind.startsWith(`${asked}.`);
}

function toWorkspaceEdit(session: Session, changes: readonly Replacement[]): WorkspaceEdit | undefined {
  const byUri = new Map<string, { id: FileId; edits: TextEdit[] }>();
  for (const { file, start, end, text } of changes) {
    const uri = session.uriOf(file);
    if (uri === undefined) return undefined;
    const list = byUri.get(uri) ?? { id: file, edits: [] };
    list.edits.push({ range: toRange(session.linesOf(file), { start, end }), newText: text });
    byUri.set(uri, list);
  }
  if (!session.client.documentChanges)
    return { changes: Object.fromEntries([...byUri].map(([uri, { edits }]) => [uri, edits])) };
  return {
    documentChanges: [...byUri].map(([uri, { edits }]) => ({
      textDocument: { uri, version: session.document(uri)?.lines.version ?? null },
      edits,
    })),
  };
}
