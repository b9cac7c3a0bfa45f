import type { ToothNumbering } from '@curette/shared';
import type { FileFacts } from '../analysis/analysis.ts';
import type { Modules } from '../analysis/names/module.ts';
import type { Snapshot } from '../analysis/snapshot.ts';
import type { FileId } from '../problems/problem.ts';

/** What the editor's answers are made from. Offsets in them are UTF-16 units from the start of a file. */
export interface Checked {
  /** undefined when there is no such file */
  readonly facts: (id: FileId) => FileFacts | undefined;
  /** the same after changes in the file, as an experiment; undefined when there is no such file */
  readonly tryOut: (
    id: FileId,
    changes: readonly { readonly start: number; readonly end: number; readonly text: string }[],
  ) => FileFacts | undefined;
  /** what would be checked after changes in several files, as an experiment */
  readonly trial: (
    changes: ReadonlyMap<FileId, readonly { readonly start: number; readonly end: number; readonly text: string }[]>,
  ) => Checked;
  readonly snapshot: () => Snapshot;
  readonly modules: () => Modules;
  /** how whoever reads numbers teeth; ISO 3950 where nothing is said */
  readonly teeth?: () => ToothNumbering;
}

/** A stretch of a file. */
export interface Stretch {
  readonly file: FileId;
  readonly start: number;
  readonly end: number;
}
