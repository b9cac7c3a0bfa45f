import { type CodeAction, CodeActionKind } from 'vscode-languageserver';
import * as z from 'zod';
import { type CodeAction as Mending, mendActions, problemsTouching } from '../ide/code-actions.ts';
import { type FixAllOffer, fixAll, fixAllOffers, fixSpelling } from '../ide/fix-all.ts';
import type { FileId } from '../problems/problem.ts';
import type { Session } from './session.ts';
import { answerInSlices } from './slices.ts';
import { toRange } from './to-lsp.ts';
import { toWorkspaceEdit } from './workspace-edit.ts';

/** What is written otherwise than here, and read as it was meant: an editor may have it done whenever a file is saved. */
export const FIX_SPELLING = `${CodeActionKind.SourceFixAll}.curette`;

/** What an offer to mend a kind of problem bears until somebody takes it. */
const offered = z.object({ uri: z.string(), name: z.string(), version: z.number().nullable() });

type Diagnostics = Parameters<Parameters<Session['connection']['onCodeAction']>[0]>[0]['context']['diagnostics'];

/** Offers mends: for a problem, for all problems of its kind in the file, for all that is but spelling. */
export function answerCodeActions(session: Session): void {
  const { connection, workspace, guard, client } = session;

  connection.onCodeAction(({ textDocument: { uri }, range, context }, token) => {
    const id = session.idOf(uri);
    return answerInSlices(
      guard,
      'quick fixes',
      token,
      () => workspace.facts(id),
      function* (): Generator<void, CodeAction[]> {
        const lines = session.linesOf(id);
        const actions: CodeAction[] = [];
        if (isAsked(CodeActionKind.QuickFix, context.only)) {
          const located = problemsTouching(workspace, id, lines.offsetAt(range.start), lines.offsetAt(range.end));
          for (const problem of located) {
            for (const mending of mendActions(workspace, problem))
              actions.push(...quickFix(session, id, mending, context.diagnostics));
            yield;
          }
          const names = new Set(located.map(({ problem }) => problem.rule ?? problem.code));
          for (const offer of fixAllOffers(workspace, id, names)) {
            actions.push(...fixAllAction(session, uri, offer, context.diagnostics));
            yield;
          }
        }
        // Only where it was asked for by name: nobody looks for it under a word.
        if (context.only && isAsked(FIX_SPELLING, context.only)) {
          const edit = toWorkspaceEdit(session, fixSpelling(workspace, id));
          if (edit) actions.push({ title: 'Write signs as they are written here', kind: FIX_SPELLING, edit });
        }
        return actions;
      },
    );
  });

  if (client.actionResolve)
    connection.onCodeActionResolve((action, token) =>
      guard.answer('a quick fix', token, () => {
        const { data } = offered.safeParse(action.data);
        // Made for another text it could change the wrong words.
        if (!data || versionOf(session, data.uri) !== data.version) return action;
        const edit = toWorkspaceEdit(session, fixAll(workspace, session.idOf(data.uri), data.name));
        return edit ? { ...action, edit } : action;
      }),
    );
}

function quickFix(session: Session, id: FileId, action: Mending, diagnostics: Diagnostics): CodeAction[] {
  const edit = toWorkspaceEdit(session, action.changes);
  if (!edit) return [];
  const at = toRange(session.linesOf(id), action.mends);
  const mended = diagnostics.filter(
    ({ code, range: { start } }) =>
      code === action.mends.name && start.line === at.start.line && start.character === at.start.character,
  );
  return [
    {
      title: action.title,
      kind: CodeActionKind.QuickFix,
      isPreferred: action.preferred,
      ...(mended.length > 0 ? { diagnostics: mended } : {}),
      edit,
    },
  ];
}

/** What it changes is worked out when it is taken, where the editor can ask for that. */
function fixAllAction(session: Session, uri: string, offer: FixAllOffer, diagnostics: Diagnostics): CodeAction[] {
  const mended = diagnostics.filter(({ code }) => code === offer.name);
  const action: CodeAction = {
    title: `Mend all in this file: ${offer.title}`,
    kind: CodeActionKind.QuickFix,
    ...(mended.length > 0 ? { diagnostics: mended } : {}),
  };
  if (session.client.actionResolve) {
    const data: z.infer<typeof offered> = { uri, name: offer.name, version: versionOf(session, uri) };
    return [{ ...action, data }];
  }
  const edit = toWorkspaceEdit(session, fixAll(session.workspace, session.idOf(uri), offer.name));
  return edit ? [{ ...action, edit }] : [];
}

function versionOf(session: Session, uri: string): number | null {
  return session.document(uri)?.lines.version ?? null;
}

/** Whether a kind of action is asked for: by name, by a kind above it, or because nothing in particular is. */
function isAsked(kind: string, only: readonly string[] | undefined): boolean {
  return !only || only.some((asked) => asked === '' || kind === asked || kind.startsWith(`${asked}.`));
}
