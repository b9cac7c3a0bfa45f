import type { Diagnostic as LspDiagnostic } from 'vscode-languageserver/node';
import type { FileFacts } from '../analysis/analysis.ts';
import { settingsFileOf } from '../analysis/settings.ts';
import { type Diagnostic, diagnostics } from '../ide/diagnostics.ts';
import type { FileId } from '../problems/problem.ts';
import type { Session } from './session.ts';
import { toRange, toSeverity } from './to-lsp.ts';

/** Keeps the editor told of the problems of what is open. */
export interface Publisher {
  /** something changed: tells what is new as soon as the changes that have come are taken in */
  readonly changed: () => void;
  /** forgets what was told, so that all is told again */
  readonly closed: (uri: string) => void;
  readonly diagnosticsOf: (uri: string) => readonly LspDiagnostic[];
}

/** More changes than this are not drawn together: somebody wants to see something. */
const MOST_DRAWN_TOGETHER = 32;

export function createPublisher(
  session: Session,
  told: (uri: string, facts: FileFacts | undefined) => void,
): Publisher {
  const { connection, guard } = session;
  const last = new Map<string, { readonly facts: FileFacts | undefined; readonly others: ReadonlySet<FileId> }>();
  /** settings files of which something was told, by their address */
  let settingsTold: ReadonlyMap<string, FileFacts> = new Map();
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
    setImmediate(() => settle(seen, turns));
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
    if (session.client.push) guard.run('diagnostics of settings', publishSettings, undefined);
  };

  /** Settings are open in no editor of ours; what is wrong with those that count for an open document is told all the same. */
  const publishSettings = () => {
    const snapshot = session.workspace.snapshot();
    const now = new Map<string, FileFacts>();
    for (const { id } of session.open()) {
      const settings = settingsFileOf(snapshot, id)?.id;
      const uri = settings === undefined ? undefined : session.uriOf(settings);
      const facts = settings === undefined ? undefined : session.workspace.facts(settings);
      if (uri === undefined || !facts || session.document(uri)) continue;
      if (facts.problems.length > 0) now.set(uri, facts);
    }
    for (const uri of settingsTold.keys())
      if (!now.has(uri)) guard.send('diagnostics', connection.sendDiagnostics({ uri, diagnostics: [] }));
    for (const [uri, facts] of now) {
      if (settingsTold.get(uri) === facts) continue;
      const { id } = facts.file;
      const list = diagnostics(session.workspace, id).map((diagnostic) => toDiagnostic(session, id, diagnostic));
      guard.send('diagnostics', connection.sendDiagnostics({ uri, diagnostics: list }));
    }
    settingsTold = now;
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
      setImmediate(() => afterNextTurn(0));
    },
    closed: (uri) => {
      last.delete(uri);
      if (session.client.push) guard.send('diagnostics', connection.sendDiagnostics({ uri, diagnostics: [] }));
    },
    diagnosticsOf: (uri) => {
      const id = session.idOf(uri);
      return diagnostics(session.workspace, id).map((diagnostic) => toDiagnostic(session, id, diagnostic));
    },
  };
}

function toDiagnostic(session: Session, id: FileId, diagnostic: Diagnostic): LspDiagnostic {
  const { name, message, related } = diagnostic;
  const result: LspDiagnostic = {
    range: toRange(session.linesOf(id), diagnostic),
    severity: toSeverity(diagnostic.severity),
    code: name,
    source: 'curette',
    message,
  };
  const { problemPage } = session.client;
  if (problemPage !== undefined) result.codeDescription = { href: problemPage.replaceAll('{code}', name) };
  if (session.client.related && related.length > 0)
    result.relatedInformation = related.flatMap((place) => {
      const uri = session.uriOf(place.file);
      return uri === undefined
        ? []
        : [{ location: { uri, range: toRange(session.linesOf(place.file), place) }, message: place.message }];
    });
  return result;
}
