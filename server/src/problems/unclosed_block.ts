import { type Place, problemKind } from './problem.ts';

interface Data {
  readonly expected: string | undefined;
  readonly place: Place;
}

export const unclosedBlock = problemKind<Data>({
  code: 'unclosed_block',
  severity: 'error',
  title: 'Block not closed',
  page: `A block that begins with \`{\` has no \`}\`. Where it ends was guessed from how the lines are set, so that the rest of the file can still be checked. The guess may be wrong.

Put the closing brace on a line of its own, below the word that the block begins with.`,
  triggers: `
// quiet: missing_head
protocol recall "Recall visit" {
//                             ^ unclosed_block
  visit recall "Recall" {
  //                    ^ unclosed_block
    note "Probe all round"

protocol hygiene "Hygiene visit" {
  visit hygiene "Hygiene" {
    note "Polish"
  }
}
`,
  silent: `
// quiet: missing_head
protocol recall "Recall visit" {
  visit recall "Recall" {
    note "Probe all round"
  }
}

protocol hygiene "Hygiene visit" {
  visit hygiene "Hygiene" {
    note "Polish"
  }
}
`,
  words: () => ({
    message: 'This block has no closing brace. Where it ends was guessed from how the lines are set.',
    label: 'no closing brace',
  }),
});
