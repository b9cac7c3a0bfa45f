import {
  checklistChangedNotification,
  checklistRequest,
  libraryPath,
  libraryTextRequest,
  problemPageRequest,
} from '@curette/shared';
import type { FileFacts } from '../analysis/analysis.ts';
import { problemPage, rulePage } from '../problems/explain.ts';
import { checklistOf } from '../render/checklist.ts';
import { checklistHtml } from '../render/checklist-html.ts';
import { missingChecklistHtml } from '../render/checklist-missing.ts';
import type { Session } from './session.ts';

/** Answers what this project's own client asks beyond the protocol. */
export interface Curette {
  /** problems of a document were told anew: what else was made of it may read differently */
  readonly changed: (uri: string, facts: FileFacts | undefined) => void;
}

export function answerCurette(session: Session): Curette {
  const { connection, workspace, guard } = session;
  /** the facts that the checklist was last made from, for documents whose checklist is looked at */
  const shown = new Map<string, FileFacts | undefined>();

  connection.onRequest(checklistRequest.method, (value: unknown) => {
    const { uri, protocol } = checklistRequest.params.parse(value);
    const facts = workspace.facts(session.idOf(uri));
    shown.set(uri, facts);
    const found = facts?.protocols.find(({ statement }) => protocol === undefined || statement.name?.text === protocol);
    const name = decodeURIComponent(uri.slice(uri.lastIndexOf('/') + 1));
    return {
      html:
        facts && found
          ? checklistHtml(checklistOf(facts, found, workspace.facts))
          : missingChecklistHtml(name, protocol),
      protocol: found ? (found.statement.name?.text ?? '') : null,
      version: session.document(uri)?.lines.version ?? 0,
    };
  });

  connection.onRequest(libraryTextRequest.method, (value: unknown) => {
    const path = libraryPath(libraryTextRequest.params.parse(value).uri);
    const file = path === undefined ? undefined : workspace.snapshot().file(`library:${path}`);
    return { text: file?.text ?? null };
  });

  connection.onRequest(problemPageRequest.method, (value: unknown) => {
    const { code } = problemPageRequest.params.parse(value);
    return { markdown: problemPage(code) ?? pageOfRule(session, code) ?? null };
  });

  return {
    changed: (uri, facts) => {
      // Told once; the next question about it says that somebody is still looking.
      if (!shown.has(uri) || shown.get(uri) === facts) return;
      shown.delete(uri);
      guard.send('the checklist', connection.sendNotification(checklistChangedNotification.method, { uri }));
    },
  };
}

/** The page about a rule that one of the open documents falls under. */
function pageOfRule(session: Session, name: string): string | undefined {
  for (const { id } of session.open()) {
    const module = session.workspace.facts(id)?.module;
    const page = module && rulePage(module, name);
    if (page !== undefined) return page;
  }
  return undefined;
}
