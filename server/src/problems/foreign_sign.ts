import { type Place, problemKind } from './problem.ts';

interface Data {
  /** what is written here instead */
  readonly expected: string | undefined;
  readonly place: Place;
}

export const foreignSign = problemKind<Data>({
  code: 'foreign_sign',
  severity: 'error',
  title: 'Sign not used here',
  page: `The sign comes from somewhere else, a spreadsheet or a programming language. Here one writes \`=\` for equal, \`and\`, \`or\`, \`not\` in words, and nothing at the end of a line.

The line was read as if it had been written that way, so the rest of it is still checked.`,
  triggers: `
// quiet: missing_head
protocol recall "Recall visit" {
  given { patient : patient }
  exclude when patient has pregnancy && patient has diabetes
  //                                 ^^ foreign_sign
  visit recall "Recall" {
    note "Probe all round"
  }
}
`,
  silent: `
// quiet: missing_head
protocol recall "Recall visit" {
  given { patient : patient }
  exclude when patient has pregnancy and patient has diabetes
  visit recall "Recall" {
    note "Probe all round"
  }
}
`,
  words: ({ expected, place }) => ({
    message: expected ? `This sign is not used here; write ${expected}.` : 'This sign is not used here.',
    label: expected ? `write ${expected}` : 'not used here',
    mends:
      expected && /^"[^"]+"$/.test(expected)
        ? [
            {
              title: `Write ${expected}`,
              edits: [{ type: 'replace', place, text: expected.slice(1, -1) }],
              spelling: true,
            },
          ]
        : [],
  }),
});
