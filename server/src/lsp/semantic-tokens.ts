import {
  type CancellationToken,
  SemanticTokenModifiers,
  SemanticTokensBuilder,
  type SemanticTokensLegend,
  SemanticTokensRefreshRequest,
  SemanticTokenTypes,
} from 'vscode-languageserver';
import type { FileFacts } from '../analysis/analysis.ts';
import {
  type SemanticToken,
  semanticTokens,
  semanticTokensInSteps,
  TOKEN_MARKS,
  TOKEN_SORTS,
  type TokenSort,
} from '../ide/semantic-tokens.ts';
import type { FileId } from '../problems/problem.ts';
import type { Session } from './session.ts';
import { answerInSlices } from './slices.ts';
import { afterMessages } from './turn.ts';

/** Tells the editor what the words of a text stand for, so that it can colour them. */
export interface SemanticTokens {
  /** problems of a document were told anew: its words may stand for something else */
  readonly changed: (uri: string, facts: FileFacts | undefined) => void;
  readonly closed: (uri: string) => void;
}

/** Standard words where one fits; the others are declared in the extension's manifest, with what themes know in their place. */
const TYPES: Readonly<Record<TokenSort, string>> = {
  kind: SemanticTokenTypes.class,
  entry: 'entry',
  role: 'role',
  action: SemanticTokenTypes.function,
  thing: SemanticTokenTypes.variable,
  slot: SemanticTokenTypes.parameter,
  property: SemanticTokenTypes.property,
  state: 'state',
  finding: SemanticTokenTypes.enum,
  value: SemanticTokenTypes.enumMember,
  condition: 'condition',
  unit: 'unit',
  source: 'source',
  rule: 'rule',
  pause: SemanticTokenTypes.event,
  protocol: SemanticTokenTypes.namespace,
  figures: SemanticTokenTypes.struct,
  name: SemanticTokenTypes.variable,
};

const MODIFIERS = TOKEN_MARKS.map((mark) => {
  if (mark === 'declaration') return SemanticTokenModifiers.declaration;
  return mark === 'library' ? SemanticTokenModifiers.defaultLibrary : mark;
});

const tokenTypes = [...new Set(TOKEN_SORTS.map((sort) => TYPES[sort]))];

export const legend: SemanticTokensLegend = { tokenTypes, tokenModifiers: MODIFIERS };

export function answerSemanticTokens(session: Session): SemanticTokens {
  const { connection, workspace, guard, client } = session;
  const { semanticTokens: requests } = connection.languages;
  /** what was last answered for a document as a whole: the next answer is what has changed since */
  const builders = new Map<string, SemanticTokensBuilder>();
  const last = new Map<string, { readonly version: number; readonly facts: FileFacts | undefined }>();
  let refreshing = false;

  const builderOf = (uri: string): SemanticTokensBuilder => {
    const known = builders.get(uri);
    if (known) return known;
    const made = new SemanticTokensBuilder();
    if (session.document(uri)) builders.set(uri, made);
    return made;
  };
  const whole = <T>(
    uri: string,
    token: CancellationToken,
    before: string,
    answer: (builder: SemanticTokensBuilder) => T,
  ) => {
    const id = session.idOf(uri);
    return answerInSlices(
      guard,
      'the colours of words',
      token,
      () => workspace.facts(id),
      function* (): Generator<void, T> {
        const tokens = yield* semanticTokensInSteps(workspace, id, 0, Number.POSITIVE_INFINITY);
        const builder = builderOf(uri);
        builder.previousResult(before);
        write(session, builder, id, tokens);
        return answer(builder);
      },
    );
  };

  requests.on(({ textDocument: { uri } }, token) => whole(uri, token, '', (builder) => builder.build()));

  requests.onDelta(({ textDocument: { uri }, previousResultId }, token) =>
    whole(uri, token, previousResultId, (builder) => builder.buildEdits()),
  );

  requests.onRange(({ textDocument: { uri }, range }, token) =>
    guard.answer('the colours of words', token, () => {
      const id = session.idOf(uri);
      const lines = session.linesOf(id);
      const builder = new SemanticTokensBuilder();
      const tokens = semanticTokens(workspace, id, lines.offsetAt(range.start), lines.offsetAt(range.end));
      write(session, builder, id, tokens);
      return builder.build();
    }),
  );

  return {
    changed: (uri, facts) => {
      const version = session.document(uri)?.lines.version ?? 0;
      const before = last.get(uri);
      last.set(uri, { version, facts });
      // After a change of the text itself the editor asks by itself; of a change in another file it knows nothing.
      if (!client.tokenRefresh || before?.version !== version || before.facts === facts || refreshing) return;
      refreshing = true;
      afterMessages(() => {
        refreshing = false;
        guard.send('a refresh of colours', connection.sendRequest(SemanticTokensRefreshRequest.type));
      });
    },
    closed: (uri) => {
      builders.delete(uri);
      last.delete(uri);
    },
  };
}

function write(session: Session, builder: SemanticTokensBuilder, id: FileId, tokens: readonly SemanticToken[]): void {
  const lines = session.linesOf(id);
  for (const { start, end, sort, marks } of tokens) {
    const { line, character } = lines.positionAt(start);
    const modifiers = marks.reduce((bits, mark) => bits | (1 << TOKEN_MARKS.indexOf(mark)), 0);
    builder.push(line, character, end - start, typeIndex(sort), modifiers);
  }
}

function typeIndex(sort: TokenSort): number {
  return tokenTypes.indexOf(TYPES[sort]);
}
