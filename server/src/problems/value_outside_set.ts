import { type Place, problemKind } from './problem.ts';
import { article, listWords, meant, plain } from './words.ts';

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
    // A wrong number is not a misspelt one: offering its neighbours would invite the wrong tooth or size.
    const numbers = allowed.length > 0 && allowed.every((other) => /^\d+$/.test(other));
    const { sentence, mends } = numbers ? { sentence: '', mends: [] } : meant(value, allowed, place);
    const all = numbers ? numberRuns(allowed) : allowed.length <= 12 ? allowed.map(plain) : [];
    return {
      message: `"${plain(value)}" is no ${plain(property)} of ${article(of)}.${sentence}${
        sentence === '' && all.length > 0 ? ` It is one of ${listWords(all)}.` : ''
      }`,
      label: 'not one of the values',
      mends,
    };
  },
});

/** 11, 12, 13, 21, 22 as "11–13", "21–22" */
function numberRuns(allowed: readonly string[]): string[] {
  const runs: [number, number][] = [];
  for (const number of allowed.map(Number).sort((a, b) => a - b)) {
    const last = runs.at(-1);
    if (last && number === last[1] + 1) last[1] = number;
    else runs.push([number, number]);
  }
  return runs.map(([from, to]) => (from === to ? String(from) : `${from}–${to}`));
}
