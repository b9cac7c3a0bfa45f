import { type FileId, problemKind } from './problem.ts';

interface Data {
  readonly file: FileId;
  readonly statement: number;
  readonly end: number;
}

export const repeatWithoutLimit = problemKind<Data>({
  code: 'repeat_without_limit',
  severity: 'warning',
  title: 'Repeated without limit',
  page: `A repetition does not say how often at most. At the chair somebody has to know when to stop and do something else, and without a limit it cannot be told how long the visit takes or how much is used.

Say it: \`repeat until "…" at most 3 times { … }\`, and write behind it what is done when that was not enough.`,
  triggers: `
// quiet: missing_head
protocol bleed "Bleeding socket" {
  visit evening "Evening call" {
    repeat until "Bleeding has stopped" {
//  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ repeat_without_limit
      note "Fresh damp gauze, five minutes"
    }
  }
}
`,
  silent: `
// quiet: missing_head
protocol bleed "Bleeding socket" {
  visit evening "Evening call" {
    repeat until "Bleeding has stopped" at most 3 times {
      note "Fresh damp gauze, five minutes"
    }
  }
}
`,
  words: ({ file, statement, end }) => ({
    message: 'Nothing says how often this is repeated at most.',
    label: 'no limit',
    mends: [
      {
        title: 'Add "at most 3 times"',
        edits: [{ type: 'replace', place: { file, statement, span: { start: end, end } }, text: ' at most 3 times' }],
      },
    ],
  }),
});
