import type { RefusedUnit } from '@curette/shared';
import { type Place, problemKind } from './problem.ts';
import { listWords, sentence } from './words.ts';

interface Data {
  readonly spelling: string;
  readonly refused: RefusedUnit;
  readonly place: Place;
}

export const unknownUnit = problemKind<Data>({
  code: 'unknown_unit',
  severity: 'error',
  title: 'Unknown unit',
  page: `A number is followed by a unit that is not known, or by one that looks like another and would be misread: \`Mg\` is a tonne, not a milligram. Units follow UCUM; the trade's everyday spellings are accepted where they cannot be mistaken.

Take one of the spellings offered. A counting word of your own (\`scoop\`, \`ampoule\`) is declared once with \`unit\`.`,
  triggers: `
kind dose "dose" is material {
  strength : mass
}

dose tablet "Tablet" {
  strength 400 Mg
  //           ^^ unknown_unit
}
`,
  silent: `
kind dose "dose" is material {
  strength : mass
}

dose tablet "Tablet" {
  strength 400 mg
}
`,
  words: ({ spelling, refused, place }) => {
    const near = refused.suggestions.slice(0, 3);
    const explained = refused.explanation ? ` ${sentence(refused.explanation)}.` : '';
    const guess = near.length > 0 ? ` Was ${listWords(near.map((other) => `"${other}"`))} meant?` : '';
    return {
      message: `"${spelling}" is not a unit that can be used here.${explained}${guess}`,
      label: 'unit not known',
      mends: near.map((other) => ({
        title: `Change to "${other}"`,
        edits: [{ type: 'replace', place, text: other }],
      })),
    };
  },
});
