import type { TextEdit, WorkspaceEdit } from 'vscode-languageserver';
import type { Replacement } from '../ide/apply-edit.ts';
import type { Session } from './session.ts';
import { toRange } from './to-lsp.ts';

/**
 * Undefined where nothing changes, or where one of the files has no address: then none of it may be done. An open document's part says which
 * version it is for.
 */
export function toWorkspaceEdit(session: Session, changes: readonly Replacement[]): WorkspaceEdit | undefined {
  if (changes.length === 0) return undefined;
  const byUri = new Map<string, TextEdit[]>();
  for (const { file, start, end, text } of changes) {
    const uri = session.uriOf(file);
    if (uri === undefined) return undefined;
    const edits = byUri.get(uri) ?? [];
    edits.push({ range: toRange(session.linesOf(file), { start, end }), newText: text });
    byUri.set(uri, edits);
  }
  if (!session.client.documentChanges) return { changes: Object.fromEntries(byUri) };
  return {
    documentChanges: [...byUri].map(([uri, edits]) => ({
      textDocument: { uri, version: session.document(uri)?.lines.version ?? null },
      edits,
    })),
  };
}
