import { type Place, problemKind } from './problem.ts';

interface Data {
  readonly expected: string | undefined;
  readonly place: Place;
}

export const strayClose = problemKind<Data>({
  code: 'stray_close',
  severity: 'error',
  title: 'Brace closes nothing',
  page: `A \`}\` stands where no block is open. One brace too many, or the brace that opens a block was lost above.`,
  triggers: '',
  silent: '',
  words: ({ place }) => ({
    message: 'This brace closes nothing: one too many, or the block it belongs to lost its opening brace.',
    label: 'closes nothing',
    mends: [{ title: 'Remove the brace', edits: [{ type: 'replace', place, text: '' }] }],
  }),
});
