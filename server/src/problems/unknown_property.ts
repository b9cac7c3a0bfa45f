import { type Place, problemKind } from './problem.ts';
import { listWords, meant, plain } from './words.ts';

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
  page: `A property is filled in that the kind of thing does not declare. It may be misspelt, or belong to a narrower kind.`,
  triggers: '',
  silent: '',
  words: ({ property, kind, known, place }) => {
    const { sentence, mends } = meant(property, known, place);
    const has = known.length > 0 ? ` It has ${listWords(known.map(plain), 'and')}.` : '';
    return {
      message: `A ${kind} has no "${plain(property)}".${sentence === '' ? has : sentence}`,
      label: 'no such property',
      mends,
    };
  },
});
