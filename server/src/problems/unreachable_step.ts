import { type FileId, type Place, problemKind } from './problem.ts';

interface Data {
  readonly after: Place;
  readonly file: FileId;
  readonly statement: number;
}

export const unreachableStep = problemKind<Data>({
  code: 'unreachable_step',
  severity: 'warning',
  title: 'Never reached',
  page: `Every path stops before this line, so it is never done, and it was not checked.`,
  triggers: '',
  silent: '',
  words: ({ after }) => ({
    message: 'Every path stops before this line; it and what follows are never done.',
    label: 'never reached',
    related: [{ place: after, message: 'every path ends here' }],
  }),
});
