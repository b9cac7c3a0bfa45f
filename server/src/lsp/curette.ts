import {
  type CasesResult,
  casesRequest,
  libraryPath,
  libraryTextRequest,
  type PreviewResult,
  previewChangedNotification,
  previewRequest,
  problemPageRequest,
} from '@curette/shared';
import { ErrorCodes, ResponseError } from 'vscode-languageserver';
import type * as z from 'zod';
import type { FileFacts } from '../analysis/analysis.ts';
import { problemPage, rulePage } from '../problems/explain.ts';
import type { FileId } from '../problems/problem.ts';
import { casesOf, previewOf } from '../render/preview.ts';
import { fileName } from '../render/text.ts';
import type { Session } from './session.ts';
import { answerFromAllFiles } from './whole-workspace.ts';

/** Answers what this project's own client asks beyond the protocol. */
export interface Curette {
  /** problems of a document were told anew: what else was made of it may read differently */
  readonly changed: (uri: string, facts: FileFacts | undefined) => void;
}

export function answerCurette(session: Session): Curette {
  const { connection, workspace, guard } = session;
  /** the facts that a page was last made from, for documents that are looked at beside their text */
  const shown = new Map<string, FileFacts | undefined>();

  connection.onRequest(previewRequest.method, (value: unknown, token) =>
    guard.answer('a preview', token, (): PreviewResult => {
      const { uri, ...asked } = read(previewRequest, value);
      const id = session.idOf(uri);
      const facts = workspace.facts(id);
      shown.set(uri, facts);
      const version = session.document(uri)?.lines.version ?? 0;
      if (!facts) throw new ResponseError(ErrorCodes.InvalidParams, `${uri} could not be read.`);
      const { declaredIn, protocols, cases, ...page } = previewOf(facts, asked, workspace.facts);
      return {
        ...page,
        protocols: [...protocols],
        cases: [...cases],
        declaredIn: session.uriOf(declaredIn) ?? null,
        files: filesOf(session, facts, declaredIn),
        version,
      };
    }),
  );

  connection.onRequest(casesRequest.method, (value: unknown, token) =>
    answerFromAllFiles(session, 'cases', token, function* (): Generator<void, CasesResult> {
      const { uri, protocol } = read(casesRequest, value);
      const id = session.idOf(uri);
      const cases: CasesResult['cases'] = [];
      for (const user of [id, ...session.files.users(id)]) {
        const declaring = session.uriOf(user);
        for (const { name, title } of casesOf(workspace.facts(user), id, protocol))
          if (declaring !== undefined) cases.push({ uri: declaring, name, title });
        yield;
      }
      return { cases };
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
      guard.send('a preview', connection.sendNotification(previewChangedNotification.method, { uri }));
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

/** Where the files are opened whose names stand in pages: those that a document and its protocol are made of. */
function filesOf(session: Session, facts: FileFacts, declaredIn: FileId): Record<string, string> {
  const reached = [facts.module, session.workspace.facts(declaredIn)?.module].flatMap((module) =>
    (module?.closure ?? []).map(({ id }) => id),
  );
  const files = new Set([facts.file.id, declaredIn, ...reached]);
  return Object.fromEntries(
    [...files].flatMap((id) => {
      const uri = session.uriOf(id);
      return uri === undefined ? [] : [[fileName(id), uri]];
    }),
  );
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
