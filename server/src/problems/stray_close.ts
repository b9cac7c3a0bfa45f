import { type Place, problemKind } from './problem.ts';

interface Data {
  readonly expected: string | undefined;
  readonly place: Place;
}

export const strayClose = problemKind<Data>({
  code: 'stray_close',
  severity: 'error',
  title: 'Brace closes nothing',
  page: `A \`}\` stands where no block is open. There is one brace too many, or the line that opens the block was lost above.

Remove it, or put the opening line back. Everything around it is still checked.`,
  triggers: `
// quiet: missing_head
protocol recall "Recall visit" {
  visit recall "Recall" {
    note "Probe all round"
  }
}
   }
// ^ stray_close
`,
  silent: `
// quiet: missing_head
protocol recall "Recall visit" {
  visit recall "Recall" {
    note "Probe all round"
  }
}
`,
  words: ({ place }) => ({
    message: 'This brace closes nothing: one too many, or the block it belongs to lost its opening brace.',
    label: 'closes nothing',
    mends: [{ title: 'Remove the brace', edits: [{ type: 'replace', place, text: '' }] }],
  }),
});
