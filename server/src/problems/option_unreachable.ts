import { type FileId, problemKind } from './problem.ts';

interface Data {
  readonly label: string;
  readonly file: FileId;
  readonly statement: number;
}

export const optionUnreachable = problemKind<Data>({
  code: 'option_unreachable',
  severity: 'warning',
  title: 'Option never taken',
  page: `Options above already take every finding that this one names, so it is never reached. Often an option was copied and its finding not changed.`,
  triggers: '',
  silent: '',
  words: ({ label, file, statement }) => ({
    message: `The option "${label}" is never taken: options above it cover all that it names.`,
    label: 'never taken',
    mends: [{ title: 'Remove the option', edits: [{ type: 'remove', file, statement }] }],
  }),
});
