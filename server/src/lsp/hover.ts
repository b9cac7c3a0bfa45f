import { MarkupKind } from 'vscode-languageserver';
import { hover } from '../ide/hover.ts';
import type { Session } from './session.ts';
import { toRange } from './to-lsp.ts';

/** Answers what the word under the pointer is. */
export function answerHover(session: Session): void {
  const { connection, guard, workspace } = session;
  const shown = { ...workspace, teeth: session.toothNumbers };
  connection.onHover(({ textDocument: { uri }, position }, token) =>
    guard.answer('hover', token, () => {
      const id = session.idOf(uri);
      const lines = session.linesOf(id);
      const told = hover(shown, id, lines.offsetAt(position));
      return told
        ? { contents: { kind: MarkupKind.Markdown, value: told.markdown }, range: toRange(lines, told) }
        : null;
    }),
  );
}
