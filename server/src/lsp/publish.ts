import type { FileFacts } from '../analysis/analysis.ts';
import { diagnostics } from '../ide/diagnostics.ts';
import type { FileId } from '../problems/problem.ts';
import { toDiagnostic } from './diagnostics.ts';
import type { Session } from './session.ts';
import { afterMessages } from './turn.ts';

/** Keeps the editor told of the problems of what is open. */
export interface Publisher {
  /** something changed: tells what is new as soon as the changes that have come are taken in */
  readonly changed: () => void;
  /** forgets what was told, so that all is told again */
  readonly closed: (uri: string) => void;
}

/** More changes than this are not drawn together: somebody wants to see something. */
const MOST_DRAWN_TOGETHER = 32;

/**
 * @param told the problems of a document were told anew
 * @param toldAll those of every document are as they should be
 */
export function createPublisher(
  session: Session,
  told: (uri: string, facts: FileFacts | undefined) => void,
  toldAll: () => void,
): Publisher {
  const { connection, guard } = session;
  const last = new Map<string, { readonly facts: FileFacts | undefined; readonly others: ReadonlySet<FileId> }>();
  let changes = 0;
  let scheduled = false;

  // No timer: told at once, unless a further change has come and waits for its turn, which is the next one.
  const settle = (seen: number, turns: number): void => {
    if (changes !== seen && turns < MOST_DRAWN_TOGETHER) {
      afterNextTurn(turns + 1);
      return;
    }
    scheduled = false;
    publishAll();
  };
  const afterNextTurn = (turns: number): void => {
    const seen = changes;
    afterMessages(() => settle(seen, turns));
  };

  const publishAll = () => {
    const fresh = new Set<FileId>();
    for (const { uri, id } of session.open()) if (last.get(uri)?.facts !== session.workspace.facts(id)) fresh.add(id);
    for (const document of session.open()) {
      const before = last.get(document.uri);
      if (before && !fresh.has(document.id) && ![...fresh].some((id) => before.others.has(id))) continue;
      guard.run(
        `diagnostics of ${document.uri}`,
        () => publish(document.uri, document.id, document.lines.version),
        undefined,
      );
    }
    guard.run('what goes with diagnostics', toldAll, undefined);
  };

  const publish = (uri: string, id: FileId, version: number) => {
    const facts = session.workspace.facts(id);
    const found = diagnostics(session.workspace, id);
    last.set(uri, {
      facts,
      others: new Set(found.flatMap(({ related }) => related.map(({ file }) => file)).filter((file) => file !== id)),
    });
    const list = found.map((diagnostic) => toDiagnostic(session, id, diagnostic));
    if (session.client.push)
      guard.send(
        'diagnostics',
        connection.sendDiagnostics({ uri, ...(session.client.version ? { version } : {}), diagnostics: list }),
      );
    told(uri, facts);
  };

  return {
    changed: () => {
      changes += 1;
      if (scheduled) return;
      scheduled = true;
      afterMessages(() => afterNextTurn(0));
    },
    closed: (uri) => {
      last.delete(uri);
      if (session.client.push) guard.send('diagnostics', connection.sendDiagnostics({ uri, diagnostics: [] }));
    },
  };
}
