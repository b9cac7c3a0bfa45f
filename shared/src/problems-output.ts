import * as z from 'zod';

/** What `curette check --format json` prints, for programs to read. A change that breaks a reader raises `version`. */

/** Lines and columns count from 1, offsets from 0; columns and offsets in UTF-16 units; the end is not included. */
export const outputRange = z.object({
  line: z.int().min(1),
  column: z.int().min(1),
  endLine: z.int().min(1),
  endColumn: z.int().min(1),
  start: z.int().min(0),
  end: z.int().min(0),
});

export const outputSeverity = z.enum(['error', 'warning', 'advice']);

export const outputProblem = z.object({
  code: z.string(),
  /** the rule of the library or the institution that was broken */
  rule: z.string().nullable(),
  severity: outputSeverity,
  /** two to five words */
  title: z.string(),
  /** one of `files`, or a file of the shipped library as `library:std/NAME.curette` */
  file: z.string(),
  range: outputRange.nullable(),
  /** a few words about the stretch itself */
  label: z.string().nullable(),
  message: z.string(),
  why: z.string().nullable(),
  source: z.object({ name: z.string(), citation: z.string() }).nullable(),
  /** what comes before it, where it speaks of a dose or of whom something is not for */
  caution: z.string().nullable(),
  related: z.array(z.object({ file: z.string(), range: outputRange.nullable(), message: z.string() })),
  mends: z.array(
    z.object({
      title: z.string(),
      /** replacements in the files as they were checked, all at once; null where it is for a person to make */
      edits: z
        .array(z.object({ file: z.string(), start: z.int().min(0), end: z.int().min(0), text: z.string() }))
        .nullable(),
    }),
  ),
});

export const problemsOutput = z.object({
  version: z.literal(1),
  tool: z.object({ name: z.literal('curette'), version: z.string() }),
  files: z.array(
    z.object({
      path: z.string(),
      /** false when the file could not be read as text */
      read: z.boolean(),
    }),
  ),
  problems: z.array(outputProblem),
  counts: z.object({ error: z.int().min(0), warning: z.int().min(0), advice: z.int().min(0) }),
});

export type OutputProblem = z.infer<typeof outputProblem>;
export type OutputRange = z.infer<typeof outputRange>;
export type ProblemsOutput = z.infer<typeof problemsOutput>;
