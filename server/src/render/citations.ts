import type { Module } from '../analysis/names/module.ts';
import type { FileId, SourceNote } from '../problems/problem.ts';

/** Numbers the sources of a sheet in the order in which they are first met. */
export interface Citations {
  /** the number of a source named in a file; null when none is named or nothing declares it */
  readonly number: (source: string | undefined, file: FileId) => number | null;
  readonly all: readonly SourceNote[];
}

export function createCitations(module: Module): Citations {
  const all: SourceNote[] = [];
  const numbers = new Map<string, number>();
  return {
    all,
    number: (source, file) => {
      const note = module.module(file)?.citation(source) ?? module.citation(source);
      if (!note) return null;
      const key = `${note.name}\n${note.citation}`;
      const known = numbers.get(key);
      if (known !== undefined) return known;
      all.push(note);
      numbers.set(key, all.length);
      return all.length;
    },
  };
}
