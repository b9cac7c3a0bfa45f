import { problemKind } from './problem.ts';

interface Data {
  /** what could not be told, in words */
  readonly what: string;
  /** what would have to be stated */
  readonly missing: string;
  readonly rule: string | undefined;
}

export const undecidedNeed = problemKind<Data>({
  code: 'undecided',
  severity: 'warning',
  title: 'Cannot be told',
  page: `Something that an action or a rule asks for can be neither confirmed nor denied from what is written. It is not taken for granted. State what is missing.`,
  triggers: '',
  silent: '',
  words: ({ what, missing, rule }) => ({
    rule,
    message: `It cannot be told ${/^(whether|how) /.test(what) ? what : `whether ${what}`}: ${missing} is not stated.`,
    label: `${missing} not stated`,
  }),
});
