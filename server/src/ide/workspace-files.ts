import type { FileId } from '../problems/problem.ts';
import type { WorkspaceSymbol } from './workspace-symbols.ts';

/**
 * All files of the workspace, open or not, by what stands in them: so that of very many only a few have to be read. The shipped library
 * is not among them.
 */
export interface WorkspaceFiles {
  readonly ids: () => readonly FileId[];
  /** the files in which a word stands, in a name or in anything else */
  readonly withWord: (word: string) => readonly FileId[];
  /** the files with a `use` that leads to a file */
  readonly users: (id: FileId) => readonly FileId[];
  readonly symbols: () => Iterable<WorkspaceSymbol>;
}
