import { type FileId, problemKind } from './problem.ts';

interface Data {
  readonly thing: string;
  readonly group: string;
  readonly file: FileId;
  readonly statement: number;
}

export const neverUsed = problemKind<Data>({
  code: 'never_used',
  severity: 'warning',
  title: 'Listed but not used',
  page: `A material or an instrument is listed, but no step uses it. Either a step is missing or the list has one too many: it would be ordered, opened and counted for nothing.`,
  triggers: '',
  silent: '',
  words: ({ thing, group, file, statement }) => ({
    message: `"${thing}" is in the ${group} but no step uses it.`,
    label: 'no step uses it',
    mends: [{ title: `Remove "${thing}" from the ${group}`, edits: [{ type: 'remove', file, statement }] }],
  }),
});
