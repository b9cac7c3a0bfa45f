import type { OutputProblem, OutputRange, ProblemsOutput } from '@curette/shared';
import type { FileId, Mend, Place, Problem, Severity } from '../problems/problem.ts';
import { positionOf, type TextOfFile } from './text.ts';

/** A piece of a file's text to be replaced; offsets in UTF-16 units. */
export interface Replacement {
  readonly file: FileId;
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

export interface JsonInput {
  readonly toolVersion: string;
  readonly files: readonly { readonly path: string; readonly read: boolean }[];
  readonly problems: readonly OutputProblem[];
}

/** What `curette check --format json` prints; the schema is `problemsOutput`. */
export function problemsJson({ toolVersion, files, problems }: JsonInput): ProblemsOutput {
  const count = (severity: Severity) => problems.filter((problem) => problem.severity === severity).length;
  return {
    version: 1,
    tool: { name: 'curette', version: toolVersion },
    files: [...files],
    problems: [...problems],
    counts: { error: count('error'), warning: count('warning'), advice: count('advice') },
  };
}

/**
 * A problem as data.
 * @param name how a file is named in the output
 * @param replacements what a mend replaces, in the files as they are; undefined when that cannot be told
 * @param caution what comes before the problem's own words, where it is about a dose
 */
export function problemJson(
  problem: Problem,
  fileOf: (id: FileId) => TextOfFile | undefined,
  name: (id: FileId) => string,
  replacements: (mend: Mend) => readonly Replacement[] | undefined,
  caution?: string,
): OutputProblem {
  const range = (place: Place): OutputRange | null => {
    const file = fileOf(place.file);
    return (file && positionOf(file, place)) ?? null;
  };
  return {
    code: problem.code,
    rule: problem.rule ?? null,
    severity: problem.severity,
    title: problem.title,
    file: name(problem.place.file),
    range: range(problem.place),
    label: problem.label ?? null,
    message: problem.message,
    why: problem.why ?? null,
    source: problem.source ?? null,
    caution: caution ?? null,
    related: problem.related.map(({ place, message }) => ({ file: name(place.file), range: range(place), message })),
    mends: problem.mends.map((mend) => ({
      title: mend.title,
      edits: replacements(mend)?.map(({ file, start, end, text }) => ({ file: name(file), start, end, text })) ?? null,
    })),
  };
}
