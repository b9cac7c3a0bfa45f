import type { CancellationToken, Location, ResponseError } from 'vscode-languageserver';
import type { Stretch } from '../ide/checked.ts';
import type { FileId } from '../problems/problem.ts';
import type { Session } from './session.ts';
import { answerInSlices } from './slices.ts';
import { toRange } from './to-lsp.ts';

/**
 * Answers a question about all files of the workspace. Those that have not been read are read first; what is typed while that goes on does
 * no harm, what is typed after it makes the answer one about another text.
 */
export async function answerFromAllFiles<T>(
  session: Session,
  what: string,
  token: CancellationToken,
  work: () => Generator<void, T>,
): Promise<T | ResponseError> {
  let from: number | undefined;
  answering.set(session, (answering.get(session) ?? 0) + 1);
  try {
    return await answerInSlices(
      session.guard,
      what,
      token,
      () => from === undefined || from === session.revision(),
      function* () {
        yield* session.files.bringUpToDate();
        from = session.revision();
        return yield* work();
      },
    );
  } finally {
    answering.set(session, (answering.get(session) ?? 1) - 1);
  }
}

const answering = new WeakMap<Session, number>();

/** Whether an answer is being made from the files as they were read: none of them may be let go, to be read as another text. */
export function isAnsweringFromFiles(session: Session): boolean {
  return (answering.get(session) ?? 0) > 0;
}

/**
 * Edits that were worked out from the files as they are: a file that has come, or has changed on disk, is known only when the editor has
 * told of it, and what is made from another text would change the wrong words. Then they are worked out again.
 */
export function* fromFilesAsTheyAre<T>(
  { files, workspace }: Session,
  work: () => Generator<void, T>,
  edited: (answer: T) => readonly { readonly file: FileId }[],
): Generator<void, T> {
  files.relist();
  for (;;) {
    yield* files.bringUpToDate();
    const answer = yield* work();
    const stale = [...new Set(edited(answer).map(({ file }) => file))].filter((id) => !workspace.isCurrent(id));
    if (stale.length === 0) return answer;
    for (const id of stale) {
      workspace.refresh(id);
      files.refresh(id);
    }
  }
}

/** Where the editor finds a stretch of a file; nowhere when the file has no address. */
export function toLocation(session: Session, { file, start, end }: Stretch): Location[] {
  const uri = session.uriOf(file);
  return uri === undefined ? [] : [{ uri, range: toRange(session.linesOf(file), { start, end }) }];
}
