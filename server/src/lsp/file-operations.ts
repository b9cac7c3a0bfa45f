import {
  DidChangeWatchedFilesNotification,
  type FileOperationRegistrationOptions,
  ResponseError,
} from 'vscode-languageserver';
import { ENDING } from '../analysis/use-path.ts';
import { fileRenameEdits, type Move } from '../ide/file-rename.ts';
import type { Session } from './session.ts';
import { answerFromAllFiles, fromFilesAsTheyAre } from './whole-workspace.ts';
import { toWorkspaceEdit } from './workspace-edit.ts';

/** Which files and folders the server wants to be told of when somebody moves or deletes them. */
export const movable: FileOperationRegistrationOptions = {
  filters: [{ pattern: { glob: `**/*${ENDING}`, matches: 'file' } }, { pattern: { glob: '**', matches: 'folder' } }],
};

/** Files on disk whose changes count for what is open. */
const WATCHED = [`**/*${ENDING}`, '**/curette.json'];

/**
 * Keeps every `use` leading where it led when files and folders move.
 * @param changed told the addresses at which there are other files now, or none
 */
export function answerFileOperations(session: Session, changed: (uris: readonly string[]) => void): void {
  const { connection, workspace, guard, files } = session;

  connection.workspace.onWillRenameFiles(async ({ files: renames }, token) => {
    const answer = await answerFromAllFiles(session, 'files that move', token, function* () {
      const edits = yield* fromFilesAsTheyAre(
        session,
        () => {
          const moves = renames.flatMap(({ oldUri, newUri }) => movesOf(session, oldUri, newUri));
          return fileRenameEdits(workspace, files, moves);
        },
        (answer) => answer,
      );
      return toWorkspaceEdit(session, edits) ?? null;
    });
    return answer instanceof ResponseError ? new ResponseError<never>(answer.code, answer.message) : answer;
  });
  connection.workspace.onDidRenameFiles(({ files: renames }) =>
    guard.run(
      'files that moved',
      () => {
        const uris = renames.flatMap(({ oldUri, newUri }) => [oldUri, newUri]);
        session.moved(uris);
        changed(uris);
      },
      undefined,
    ),
  );
  connection.workspace.onDidDeleteFiles(({ files: gone }) =>
    guard.run(
      'files that are gone',
      () => {
        const uris = gone.map(({ uri }) => uri);
        session.moved(uris);
        changed(uris);
      },
      undefined,
    ),
  );
}

/** Asks the editor to look out for changes on disk. */
export function watchFiles({ connection, client, guard }: Session): void {
  if (!client.watches) return;
  const watchers = WATCHED.map((globPattern) => ({ globPattern }));
  guard.send('watching', connection.client.register(DidChangeWatchedFilesNotification.type, { watchers }));
}

/** A folder stands for all files in it. */
function movesOf(session: Session, oldUri: string, newUri: string): Move[] {
  const from = session.idOf(oldUri);
  const to = session.idOf(newUri);
  if (from.endsWith(ENDING)) return [{ from, to }];
  return session.files
    .ids()
    .filter((id) => id.startsWith(`${from}/`))
    .map((id) => ({ from: id, to: to + id.slice(from.length) }));
}
