import { type FileId, type Place, problemKind } from './problem.ts';
import { plain } from './words.ts';

interface Data {
  readonly verb: string;
  readonly first: Place;
  readonly file: FileId;
  readonly statement: number;
}

export const repeatedStep = problemKind<Data>({
  code: 'repeated_step',
  severity: 'advice',
  title: 'Same step twice',
  page: `The same line stands twice in a row. If it is meant to be done twice, \`repeat\` says so; otherwise one of them was pasted by mistake.`,
  triggers: '',
  silent: '',
  words: ({ verb, first, file, statement }) => ({
    message: `"${plain(verb)}" stands here twice in a row, word for word.`,
    label: 'the same as above',
    related: [{ place: first, message: 'the first' }],
    mends: [{ title: 'Remove the second', edits: [{ type: 'remove', file, statement }] }],
  }),
});
