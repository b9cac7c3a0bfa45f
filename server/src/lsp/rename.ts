import { LSPErrorCodes, ResponseError } from 'vscode-languageserver';
import { prepareRename, rename } from '../ide/rename.ts';
import type { Session } from './session.ts';
import { toRange } from './to-lsp.ts';
import { answerFromAllFiles, fromFilesAsTheyAre } from './whole-workspace.ts';
import { toWorkspaceEdit } from './workspace-edit.ts';

/** Gives things other names: in every file at once, or not at all. Why not is shown to whoever asked. */
export function answerRename(session: Session): void {
  const { connection, workspace, guard, files } = session;

  connection.onPrepareRename(({ textDocument: { uri }, position }, token) =>
    guard.answer('a name', token, () => {
      const id = session.idOf(uri);
      const lines = session.linesOf(id);
      const prepared = prepareRename(workspace, id, lines.offsetAt(position));
      if (!prepared.ok) return refusal(prepared.reason);
      return { range: toRange(lines, prepared.word), placeholder: prepared.name };
    }),
  );

  connection.onRenameRequest(({ textDocument: { uri }, position, newName }, token) =>
    answerFromAllFiles(session, 'another name', token, function* () {
      const id = session.idOf(uri);
      const offset = session.linesOf(id).offsetAt(position);
      const renamed = yield* fromFilesAsTheyAre(
        session,
        () => rename(workspace, files, id, offset, newName),
        (answer) => (answer.ok ? answer.edits : []),
      );
      if (!renamed.ok) throw refusal(renamed.reason);
      if (renamed.edits.length === 0) return { changes: {} };
      const edit = toWorkspaceEdit(session, renamed.edits);
      if (!edit) throw refusal('One of the files that name it cannot be reached.');
      return edit;
    }),
  );
}

function refusal(reason: string): ResponseError {
  return new ResponseError(LSPErrorCodes.RequestFailed, reason);
}
