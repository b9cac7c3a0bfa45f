import {
  FoldingRangeKind,
  type DocumentLink as LspDocumentLink,
  type FoldingRange as LspFoldingRange,
  type SelectionRange,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { documentLinks } from '../ide/document-links.ts';
import { type FoldingRange, foldingRanges } from '../ide/folding.ts';
import { selectionRanges } from '../ide/selection-ranges.ts';
import type { Session } from './session.ts';
import { toRange } from './to-lsp.ts';

/** Answers how a text is built: what may be put away, what belongs together, what leads elsewhere. */
export function answerStructure(session: Session): void {
  const { connection, workspace, guard, client } = session;

  connection.onFoldingRanges(({ textDocument: { uri } }, token) =>
    guard.answer('what may be put away', token, () => {
      const id = session.idOf(uri);
      const lines = session.linesOf(id);
      return foldingRanges(workspace, id).flatMap((range) => toFoldingRange(lines, range, client.foldsLines));
    }),
  );

  connection.onSelectionRanges(({ textDocument: { uri }, positions }, token) =>
    guard.answer('what belongs together', token, () => {
      const id = session.idOf(uri);
      const lines = session.linesOf(id);
      return positions.map((position): SelectionRange => {
        const around = selectionRanges(workspace, id, lines.offsetAt(position));
        return (
          around.reduceRight<SelectionRange | undefined>(
            (parent, span) => ({ range: toRange(lines, span), ...(parent ? { parent } : {}) }),
            undefined,
          ) ?? { range: { start: position, end: position } }
        );
      });
    }),
  );

  connection.onDocumentLinks(({ textDocument: { uri } }, token) =>
    guard.answer('links', token, () => {
      const id = session.idOf(uri);
      return documentLinks(workspace, id).flatMap((link): LspDocumentLink[] => {
        const target = link.target.type === 'page' ? link.target.address : session.uriOf(link.target.id);
        if (target === undefined) return [];
        const range = toRange(session.linesOf(id), link);
        return [{ range, target, ...(client.linkTooltips ? { tooltip: link.tooltip } : {}) }];
      });
    }),
  );
}

/** An editor that folds whole lines hides the last one too: the line of a closing brace is to stay in sight. */
function toFoldingRange(lines: TextDocument, range: FoldingRange, whole: boolean): LspFoldingRange[] {
  const start = lines.positionAt(range.start);
  const end = lines.positionAt(range.end);
  const endLine = whole && range.sort === 'block' && isBrace(lines, range.end) ? end.line - 1 : end.line;
  if (endLine <= start.line) return [];
  const kind = kindOf(range.sort);
  return [
    {
      startLine: start.line,
      endLine,
      ...(whole ? {} : { startCharacter: range.sort === 'block' ? start.character + 1 : start.character }),
      ...(whole ? {} : { endCharacter: end.character }),
      ...(kind === undefined ? {} : { kind }),
    },
  ];
}

function isBrace(lines: TextDocument, offset: number): boolean {
  return lines.getText({ start: lines.positionAt(offset), end: lines.positionAt(offset + 1) }) === '}';
}

function kindOf(sort: FoldingRange['sort']): FoldingRangeKind | undefined {
  switch (sort) {
    case 'comment':
      return FoldingRangeKind.Comment;
    case 'use':
      return FoldingRangeKind.Imports;
    case 'section':
      return FoldingRangeKind.Region;
    case 'block':
      return undefined;
    default:
      return sort satisfies never;
  }
}
