import { libraryPath, libraryTextRequest } from '@curette/shared';
import type { FileFacts } from '../analysis/analysis.ts';
import type { Session } from './session.ts';

/** Answers what this project's own client asks beyond the protocol. */
export function answerCurette(session: Session): {
  readonly changed: (uri: string, facts: FileFacts | undefined) => void;
} {
  const { connection, workspace } = session;

  connection.onRequest(libraryTextRequest.method, (value: unknown) => {
    const path = libraryPath(libraryTextRequest.params.parse(value).uri);
    const file = path === undefined ? undefined : workspace.snapshot().file(`library:${path}`);
    return { text: file?.text ?? null };
  });

  return { changed: () => undefined };
}
