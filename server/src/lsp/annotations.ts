import {
  type CancellationToken,
  CodeLensRefreshRequest,
  InlayHintRefreshRequest,
  MarkupKind,
} from 'vscode-languageserver';
import * as z from 'zod';
import type { FileFacts } from '../analysis/analysis.ts';
import { codeLenses, lensTitle } from '../ide/code-lens.ts';
import { hintTooltip, inlayHints } from '../ide/inlay-hints.ts';
import type { Session } from './session.ts';
import { toRange } from './to-lsp.ts';
import { afterMessages } from './turn.ts';

/** Answers what the editor shows between the words of a text: hints in its lines, lenses above them. */
export interface Annotations {
  /** problems of a document were told anew: what stands beside its text may read differently */
  readonly changed: (uri: string, facts: FileFacts | undefined) => void;
  readonly closed: (uri: string) => void;
}

/** How long nothing must have been typed before a lens is worked out, ms: what takes long must not stand in the way of a keystroke. */
const REST = 250;

/** What a hint or a lens bears, so that the rest of it can be asked for. */
const mark = z.object({ uri: z.string(), statement: z.number() });

export function answerAnnotations(session: Session): Annotations {
  const { connection, workspace, guard, client } = session;
  /** the version of each document, and its facts, when its problems were last told; `typed`: when its text last changed, ms */
  const last = new Map<
    string,
    { readonly version: number; readonly facts: FileFacts | undefined; readonly typed: number }
  >();
  let refreshing = false;

  connection.languages.inlayHint.on(({ textDocument: { uri }, range }, token) =>
    guard.answer('hints', token, () => {
      const id = session.idOf(uri);
      const lines = session.linesOf(id);
      return inlayHints(workspace, id, lines.offsetAt(range.start), lines.offsetAt(range.end)).map(
        ({ at, label, statement }) => ({
          position: lines.positionAt(at),
          label,
          paddingLeft: true,
          ...(client.hintResolve ? {} : tooltip(uri, statement)),
          data: { uri, statement },
        }),
      );
    }),
  );

  connection.languages.inlayHint.resolve((hint, token) =>
    guard.answer('a hint', token, () => {
      const { data } = mark.safeParse(hint.data);
      return data ? { ...hint, ...tooltip(data.uri, data.statement) } : hint;
    }),
  );

  connection.onCodeLens(({ textDocument: { uri } }, token) =>
    guard.answer('lenses', token, () => {
      const id = session.idOf(uri);
      return codeLenses(workspace, id).map((lens) => ({
        range: toRange(session.linesOf(id), lens),
        data: { uri, statement: lens.statement },
      }));
    }),
  );

  connection.onCodeLensResolve(async (lens, token) => {
    const { data } = mark.safeParse(lens.data);
    if (data) await atRest(data.uri, token);
    return guard.answer('a lens', token, () => {
      const title = data && lensTitle(workspace, session.idOf(data.uri), data.statement);
      // Words alone: nothing happens when they are clicked.
      return { ...lens, command: { title: title ?? '', command: '' } };
    });
  });

  const atRest = async (uri: string, token: CancellationToken) => {
    for (;;) {
      const rested = performance.now() - (last.get(uri)?.typed ?? Number.NEGATIVE_INFINITY);
      if (rested >= REST || token.isCancellationRequested) return;
      await new Promise((done) => setTimeout(done, REST - rested));
    }
  };

  const tooltip = (uri: string, statement: number) => {
    const value = hintTooltip(workspace, session.idOf(uri), statement);
    return value === undefined || value === '' ? {} : { tooltip: { kind: MarkupKind.Markdown, value } };
  };

  const refresh = () => {
    refreshing = false;
    if (client.hintRefresh) guard.send('a refresh of hints', connection.sendRequest(InlayHintRefreshRequest.type));
    if (client.lensRefresh) guard.send('a refresh of lenses', connection.sendRequest(CodeLensRefreshRequest.type));
  };

  return {
    changed: (uri, facts) => {
      const version = session.document(uri)?.lines.version ?? 0;
      const before = last.get(uri);
      const same = before?.version === version;
      const typed = before && !same ? performance.now() : (before?.typed ?? Number.NEGATIVE_INFINITY);
      last.set(uri, { version, facts, typed });
      // After a change of the text itself the editor asks by itself; of a change in another file it knows nothing.
      if (!same || before.facts === facts || refreshing) return;
      refreshing = true;
      afterMessages(refresh);
    },
    closed: (uri) => void last.delete(uri),
  };
}
