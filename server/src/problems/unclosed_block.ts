import { type Place, problemKind } from './problem.ts';

interface Data {
  readonly expected: string | undefined;
  readonly place: Place;
}

export const unclosedBlock = problemKind<Data>({
  code: 'unclosed_block',
  severity: 'error',
  title: 'Block not closed',
  page: `A block that begins with \`{\` has no \`}\`. Where it ends was guessed from how the lines are set, so that the rest of the file can still be checked; the guess may be wrong.`,
  triggers: '',
  silent: '',
  words: () => ({
    message: 'This block has no closing brace. Where it ends was guessed from how the lines are set.',
    label: 'no closing brace',
  }),
});
