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
  page: `A sign from a programming language. Here one writes \`=\` for equal, \`and\`, \`or\`, \`not\` in words, and nothing at the end of a line.`,
  triggers: '',
  silent: '',
  words: ({ expected, place }) => ({
    message: expected ? `This sign is not used here; write ${expected}.` : 'This sign is not used here.',
    label: expected ? `write ${expected}` : 'not used here',
    mends:
      expected && /^"[^"]+"$/.test(expected)
        ? [{ title: `Write ${expected}`, edits: [{ type: 'replace', place, text: expected.slice(1, -1) }] }]
        : [],
  }),
});
