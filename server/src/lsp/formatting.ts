import type { TextEdit } from 'vscode-languageserver';
import type { SourceFile } from '../analysis/snapshot.ts';
import { formatBrace, formatDocument, formatNewLine, formatRange, type LayoutEdit } from '../ide/formatting.ts';
import type { Session } from './session.ts';
import { toRange } from './to-lsp.ts';

/** After these signs the line is laid out while it is typed. */
export const typedSigns = { first: '}', more: ['\n'] } as const;

/** Answers how a document, a part of it, or a line that is being typed is laid out. Only what changes is told. */
export function answerFormatting(session: Session): void {
  const { connection, workspace, guard } = session;

  /** @param edits given the file and where a position stands in it; never asked for a page of the library */
  const answer = (
    uri: string,
    edits: (
      file: SourceFile,
      offsetAt: (position: { line: number; character: number }) => number,
    ) => readonly LayoutEdit[],
  ): TextEdit[] => {
    const id = session.idOf(uri);
    const file = id.startsWith('library:') ? undefined : workspace.snapshot().file(id);
    if (!file || file.trouble) return [];
    const lines = session.linesOf(id);
    return edits(file, (position) => lines.offsetAt(position)).map((edit) => ({
      range: toRange(lines, edit),
      newText: edit.text,
    }));
  };

  connection.onDocumentFormatting(({ textDocument: { uri } }, token) =>
    guard.answer('the layout', token, () => answer(uri, ({ text, tree }) => formatDocument(text, tree))),
  );

  connection.onDocumentRangeFormatting(({ textDocument: { uri }, range }, token) =>
    guard.answer('the layout of a part', token, () =>
      answer(uri, ({ text, tree }, offsetAt) => formatRange(text, tree, offsetAt(range.start), offsetAt(range.end))),
    ),
  );

  connection.onDocumentOnTypeFormatting(({ textDocument: { uri }, position, ch }, token) =>
    guard.answer('the layout of a line', token, () =>
      answer(uri, ({ text, tree }, offsetAt) => {
        const at = offsetAt(position);
        return ch === '}' ? formatBrace(text, tree, at) : formatNewLine(text, tree, at);
      }),
    ),
  );
}
