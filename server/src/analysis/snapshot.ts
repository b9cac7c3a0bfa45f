import type { SyntaxTree } from '@curette/grammar';
import type { FileId } from '../problems/problem.ts';

/** A file as the checker sees it. */
export interface SourceFile {
  readonly id: FileId;
  readonly text: string;
  readonly tree: SyntaxTree;
  /** why its content could not be taken as text, if it could not; the tree is then empty */
  readonly trouble: 'not text' | 'too large' | 'unreadable' | 'outside' | undefined;
}

/**
 * All that the checker knows. It asks for files by name and gets the same answer every time: a snapshot does not change,
 * a new one is made for each edit. The library's files are asked for in the same way.
 */
export interface Snapshot {
  readonly file: (id: FileId) => SourceFile | undefined;
  /** the shipped library's files */
  readonly library: readonly FileId[];
  /** ISO 8601 date on which the answer is asked */
  readonly today: string;
}
