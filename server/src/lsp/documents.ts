import { TextDocument } from 'vscode-languageserver-textdocument';
import type { SourceFile } from '../analysis/snapshot.ts';
import type { FileId } from '../problems/problem.ts';

/** A document that is open in the editor. */
export interface OpenDocument {
  readonly uri: string;
  readonly id: FileId;
  /** the text as lines; changed in place, as the editor's changes come */
  readonly lines: TextDocument;
}

const keptLines = new WeakMap<SourceFile, TextDocument>();

/** The lines of a file, open or not, for turning its offsets into positions. */
export function linesOf(file: SourceFile): TextDocument {
  let lines = keptLines.get(file);
  if (!lines) {
    lines = TextDocument.create(file.id, 'curette', 0, file.text);
    keptLines.set(file, lines);
  }
  return lines;
}
