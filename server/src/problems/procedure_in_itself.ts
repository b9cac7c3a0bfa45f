import { problemKind } from './problem.ts';
import { plain } from './words.ts';

interface Data {
  readonly verb: string;
}

export const procedureInItself = problemKind<Data>({
  code: 'procedure_in_itself',
  severity: 'error',
  title: 'Procedure calls itself',
  page: `A procedure uses itself, directly or through another, so its steps would never end. What is inside was not followed.`,
  triggers: '',
  silent: '',
  words: ({ verb }) => ({
    message: `The procedure "${plain(verb)}" leads back to itself; its steps would never end and were not followed.`,
    label: 'leads back to itself',
  }),
});
