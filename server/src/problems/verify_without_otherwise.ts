import { type FileId, problemKind } from './problem.ts';

interface Data {
  readonly what: string;
  readonly file: FileId;
  readonly statement: number;
  readonly end: number;
}

export const verifyWithoutOtherwise = problemKind<Data>({
  code: 'verify_without_otherwise',
  severity: 'warning',
  title: 'Check without an answer',
  page: `Something is looked at or measured, but nothing says what to do when it is not as it should be. Whoever finds it so is at the point where a protocol is needed most.

Add \`otherwise "…"\` in a few words, or \`otherwise { … }\` with steps.`,
  triggers: `
// quiet: missing_head
protocol graft_socket "Graft a socket" {
  visit surgery "Surgery" {
    verify "Graft level with the crest"
//  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ verify_without_otherwise
  }
}
`,
  silent: `
// quiet: missing_head
protocol graft_socket "Graft a socket" {
  visit surgery "Surgery" {
    verify "Graft level with the crest" otherwise "Take off or add; do not press harder"
  }
}
`,
  words: ({ what, file, statement, end }) => ({
    message: `Nothing says what to do when "${what}" is not as it should be.`,
    label: 'no "otherwise"',
    mends: [
      {
        title: 'Add "otherwise"',
        edits: [
          {
            type: 'replace',
            place: { file, statement, span: { start: end, end } },
            text: ' otherwise "Stop and reassess"',
          },
        ],
      },
    ],
  }),
});
