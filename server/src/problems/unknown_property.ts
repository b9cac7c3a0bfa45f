import { type Place, problemKind } from './problem.ts';
import { article, listWords, meant, plain, sentence } from './words.ts';

interface Data {
  readonly property: string;
  readonly kind: string;
  readonly known: readonly string[];
  readonly place: Place;
}

export const unknownProperty = problemKind<Data>({
  code: 'unknown_property',
  severity: 'error',
  title: 'Unknown property',
  page: `A property is filled in that the kind of thing does not have. The value is kept but nobody looks at it, so a limit that you think is stated is not.

Correct the spelling, or look whether the property belongs to a narrower kind. What the kind has is in its declaration and in those of the kinds it is.`,
  triggers: `
kind graft "bone graft" is material {
  particle : length range
}

graft clinic_mix "Cortical and cancellous mix" {
  particel 300..900 um
// <^^^^^^ unknown_property
}
`,
  silent: `
kind graft "bone graft" is material {
  particle : length range
}

graft clinic_mix "Cortical and cancellous mix" {
  particle 300..900 um
}
`,
  words: ({ property, kind, known, place }) => {
    const { sentence: guess, mends } = meant(property, known, place);
    const has = known.length > 0 ? ` It has ${listWords(known.map(plain), 'and')}.` : '';
    return {
      message: `${sentence(article(kind))} has no "${plain(property)}".${guess === '' ? has : guess}`,
      label: 'no such property',
      mends,
    };
  },
});
