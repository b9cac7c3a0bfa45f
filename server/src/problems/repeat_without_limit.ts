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
  page: `A repetition does not say how often at most. At the chair somebody has to know when to stop and do something else; and how long the visit takes cannot be told.`,
  triggers: '',
  silent: '',
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
