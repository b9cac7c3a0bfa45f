import {
  checklistChangedNotification,
  checklistRequest,
  libraryPath,
  libraryTextRequest,
  problemPageRequest,
} from '@curette/shared';
import { ErrorCodes, ResponseError } from 'vscode-languageserver/node';
import type * as z from 'zod';
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

  connection.onRequest(checklistRequest.method, (value: unknown, token) =>
    guard.answer('the checklist', token, () => {
      const { uri, protocol } = read(checklistRequest, value);
      const facts = workspace.facts(session.idOf(uri));
      shown.set(uri, facts);
      const found = facts?.protocols.find(
        ({ statement }) => protocol === undefined || statement.name?.text === protocol,
      );
      const name = decodeURIComponent(uri.slice(uri.lastIndexOf('/') + 1));
      return {
        html:
          facts && found
            ? checklistHtml(checklistOf(facts, found, workspace.facts))
            : missingChecklistHtml(name, protocol),
        protocol: found ? (found.statement.name?.text ?? '') : null,
        version: session.document(uri)?.lines.version ?? 0,
      };
    }),
  );

  connection.onRequest(libraryTextRequest.method, (value: unknown, token) =>
    guard.answer('a file of the library', token, () => {
      const path = libraryPath(read(libraryTextRequest, value).uri);
      const file = path === undefined ? undefined : workspace.snapshot().file(`library:${path}`);
      return { text: file?.text ?? null };
    }),
  );

  connection.onRequest(problemPageRequest.method, (value: unknown, token) =>
    guard.answer('a page', token, () => {
      const { code } = read(problemPageRequest, value);
      return { markdown: problemPage(code) ?? pageOfRule(session, code) ?? null };
    }),
  );

  return {
    changed: (uri, facts) => {
      // Told once; the next question about it says that somebody is still looking.
      if (!shown.has(uri) || shown.get(uri) === facts) return;
      shown.delete(uri);
      guard.send('the checklist', connection.sendNotification(checklistChangedNotification.method, { uri }));
    },
  };
}

/** What is asked, when it is asked as it should be. @throws as the protocol answers a request that makes no sense */
function read<Params extends z.ZodType>(
  request: { readonly method: string; readonly params: Params },
  value: unknown,
): z.output<Params> {
  const parsed = request.params.safeParse(value);
  if (parsed.success) return parsed.data;
  throw new ResponseError(ErrorCodes.InvalidParams, `${request.method}: ${parsed.error.message}`);
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
