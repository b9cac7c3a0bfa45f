import { problemKind } from './problem.ts';

interface Data {
  readonly name: string;
  readonly parent: string;
}

export const kindOfItself = problemKind<Data>({
  code: 'kind_of_itself',
  severity: 'error',
  title: 'Kind of itself',
  page: `A kind is, through one or more others, a kind of itself. A chain of kinds has to end in one that is no kind of another.`,
  triggers: '',
  silent: '',
  words: ({ name, parent }) => ({
    message:
      name === parent
        ? `"${name}" cannot be a kind of itself.`
        : `"${name}" is a kind of "${parent}", and "${parent}" is a kind of "${name}".`,
    label: 'leads back to itself',
  }),
});
