import { problemKind } from './problem.ts';

interface Data {
  readonly what: string;
  readonly wants: string;
}

export const emptyBlock = problemKind<Data>({
  code: 'empty_block',
  severity: 'warning',
  title: 'Nothing inside',
  page: `A decision without options, parallel work without lanes or a repetition without steps says nothing.`,
  triggers: '',
  silent: '',
  words: ({ what, wants }) => ({ message: `"${what}" has no ${wants} inside.`, label: `no ${wants}` }),
});
