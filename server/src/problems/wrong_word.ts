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
  page: `A few lines take one of a fixed set of words: \`severity\` is error, warning or advice; \`status\` is draft, in_review, approved or retired.`,
  triggers: '',
  silent: '',
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
