import type { Finding } from '../analysis/model.ts';
import { type Place, problemKind } from './problem.ts';
import { listWords, meant, plain } from './words.ts';

interface Data {
  readonly value: string;
  readonly finding: Finding;
  readonly place: Place;
}

export const optionUnknown = problemKind<Data>({
  code: 'option_unknown',
  severity: 'error',
  title: 'No such finding',
  page: `An option names something that the finding cannot be. The values of a finding are a closed set, so that a decision can be seen to cover them all.`,
  triggers: '',
  silent: '',
  words: ({ value, finding, place }) => {
    const { sentence, mends } = meant(value, finding.values.keys(), place);
    return {
      message: `${finding.label} is never "${plain(value)}"; it is ${listWords([...finding.values.keys()].map(plain))}.${sentence}`,
      label: 'no such finding',
      mends,
    };
  },
});
