import { type Place, problemKind } from './problem.ts';

interface Data {
  readonly expected: string | undefined;
  readonly place: Place;
}

export const unclosedText = problemKind<Data>({
  code: 'unclosed_text',
  severity: 'error',
  title: 'Text not closed',
  page: `A text in quotation marks ends on the line it begins on. The closing mark is missing, so the rest of the line was taken into the text, and what stood there is not checked.

Close the text. A long one stays on one line; a quotation mark inside a text is written \`\\"\`.`,
  triggers: `
// quiet: missing_head
protocol recall "Recall visit" {
  visit recall "Recall" {
    note "Probe all round
    //   ^^^^^^^^^^^^^^^^ unclosed_text
    instruct "Brush the neighbouring teeth"
  }
}
`,
  silent: `
// quiet: missing_head
protocol recall "Recall visit" {
  visit recall "Recall" {
    note "Probe all round"
    instruct "Brush the neighbouring teeth"
  }
}
`,
  words: ({ place }) => ({
    message: 'The closing quotation mark is missing; a text ends on the line it begins on.',
    label: 'no closing mark',
    mends: [
      {
        title: 'Close the text at the end of the line',
        edits: [
          { type: 'replace', place: { ...place, span: { start: place.span.end, end: place.span.end } }, text: '"' },
        ],
      },
    ],
  }),
});
