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
  title: 'No answer if it is not right',
  page: `Something is verified, but nothing says what to do when it is not as it should be. \`otherwise "…"\` or \`otherwise { … }\` says it.`,
  triggers: '',
  silent: '',
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
