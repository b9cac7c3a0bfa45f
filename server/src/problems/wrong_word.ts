import { type Place, problemKind } from './problem.ts';
import { listWords, meant, plain } from './words.ts';

interface Data {
  readonly what: string;
  readonly word: string;
  readonly allowed: readonly string[];
  readonly place: Place;
}

export const wrongWord = problemKind<Data>({
  code: 'wrong_word',
  severity: 'error',
  title: 'Word not allowed here',
  page: `A few lines take one of a fixed set of words: \`severity\` is error, warning or advice; \`status\` is draft, in_review, approved or retired. With any other word the line says nothing that can be acted on.

Take one of the words; they are offered.`,
  triggers: `
// quiet: missing_head
protocol recall "Recall visit" {
  status final
  //     ^^^^^ wrong_word
  visit recall "Recall" {
    note "Probe all round"
  }
}
`,
  silent: `
// quiet: missing_head
protocol recall "Recall visit" {
  status approved
  visit recall "Recall" {
    note "Probe all round"
  }
}
`,
  words: ({ what, word, allowed, place }) => {
    const { mends } = meant(word, allowed, place);
    return {
      message: `The ${what} is ${listWords(allowed.map(plain))}, not "${plain(word)}".`,
      label: `${listWords(allowed.map(plain))}`,
      mends:
        mends.length > 0
          ? mends
          : allowed.map((other) => ({
              title: `Change to "${other}"`,
              edits: [{ type: 'replace', place, text: other }],
            })),
    };
  },
});
