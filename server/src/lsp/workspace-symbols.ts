import { once } from '../analysis/once.ts';
import { symbolsIn, workspaceSymbols } from '../ide/workspace-symbols.ts';
import type { Session } from './session.ts';
import { toSymbolKind } from './to-lsp.ts';
import { answerFromAllFiles, toLocation } from './whole-workspace.ts';

/** Answers what is declared anywhere, by a few letters of it. */
export function answerWorkspaceSymbols(session: Session): void {
  const { connection, workspace, files } = session;
  const shipped = once(() => {
    const snapshot = workspace.snapshot();
    return snapshot.library.flatMap((id) => {
      const file = snapshot.file(id);
      return file ? symbolsIn(file) : [];
    });
  });

  connection.onWorkspaceSymbol(({ query }, token) =>
    answerFromAllFiles(session, 'symbols', token, function* () {
      const found = yield* workspaceSymbols(query, [files.symbols(), shipped()]);
      return found.flatMap((symbol) =>
        toLocation(session, symbol).map((location) => ({
          name: symbol.name,
          kind: toSymbolKind(symbol.sort),
          location,
          containerName: [symbol.label, symbol.container].filter((part) => part !== undefined).join(' · '),
        })),
      );
    }),
  );
}
