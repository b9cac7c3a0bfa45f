import { type Place, problemKind } from './problem.ts';
import { listWords, meant, plain } from './words.ts';

interface Data {
  readonly property: string;
  readonly of: string;
  readonly value: string;
  readonly allowed: readonly string[];
  readonly place: Place;
}

export const valueOutsideSet = problemKind<Data>({
  code: 'value_outside_set',
  severity: 'error',
  title: 'Not one of the values',
  page: `A property takes one of a closed set of values, and this is none of them: a tooth number that does not exist, a condition nobody declared.`,
  triggers: '',
  silent: '',
  words: ({ property, of, value, allowed, place }) => {
    const { sentence, mends } = meant(value, allowed, place);
    const all =
      sentence === '' && allowed.length > 0 && allowed.length <= 12
        ? ` It is one of ${listWords(allowed.map(plain))}.`
        : '';
    return {
      message: `"${plain(value)}" is no ${plain(property)} of a ${of}.${sentence}${all}`,
      label: `not one of the values`,
      mends,
    };
  },
});
