import { problemKind } from './problem.ts';
import { listWords } from './words.ts';

interface Data {
  readonly name: string;
  readonly missing: readonly string[];
}

export const ruleIncomplete = problemKind<Data>({
  code: 'rule_incomplete',
  severity: 'warning',
  title: 'Rule not complete',
  page: `A rule has to say what it asks for, why, and on what authority. A rule without a reason is an order, and nobody can tell when it may be set aside.`,
  triggers: '',
  silent: '',
  words: ({ name, missing }) => ({
    message: `The rule "${name}" does not say ${listWords(missing, 'and')}.`,
    label: `${listWords(missing, 'and')} missing`,
  }),
});
