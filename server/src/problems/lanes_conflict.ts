import { type Place, problemKind } from './problem.ts';

interface Data {
  readonly thing: string;
  readonly other: Place;
  readonly verb: string;
  readonly otherVerb: string;
}

export const lanesConflict = problemKind<Data>({
  code: 'lanes_conflict',
  severity: 'warning',
  title: 'Two lanes work on one thing',
  page: `Two lanes of parallel work handle the same thing, and at least one changes it. Which comes first is not fixed, so its state cannot be told. Put both steps in one lane, or after the parallel work.`,
  triggers: '',
  silent: '',
  words: ({ thing, other, verb, otherVerb }) => ({
    message: `"${thing}" is handled here ("${verb}") and in another lane ("${otherVerb}"); which comes first is not fixed.`,
    label: 'also handled in another lane',
    related: [{ place: other, message: 'the step in the other lane' }],
  }),
});
