import { type Place, problemKind } from './problem.ts';

interface Data {
  readonly name: string;
  readonly first: Place;
}

export const duplicateName = problemKind<Data>({
  code: 'duplicate_name',
  severity: 'error',
  title: 'Name used twice',
  page: `Two things of the same sort have the same name in one file or one protocol. Only the first counts. Rename one of them.`,
  triggers: '',
  silent: '',
  words: ({ name, first }) => ({
    message: `"${name}" is already used above; only the first one counts.`,
    label: 'used already',
    related: [{ place: first, message: `"${name}" first stands here` }],
  }),
});
