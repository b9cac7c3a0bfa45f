import { type FileId, problemKind } from './problem.ts';

interface Data {
  readonly path: string;
  readonly file: FileId;
  readonly statement: number;
}

export const unusedUse = problemKind<Data>({
  code: 'unused_use',
  severity: 'advice',
  title: 'Used for nothing',
  page: `A file is in use, but nothing it declares is named here and it brings no rules.`,
  triggers: '',
  silent: '',
  words: ({ path, file, statement }) => ({
    message: `Nothing of "${path}" is named here, and it brings no rules.`,
    label: 'not needed',
    mends: [{ title: `Remove "use ${path}"`, edits: [{ type: 'remove', file, statement }] }],
  }),
});
