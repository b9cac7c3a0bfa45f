import { problemKind } from './problem.ts';
import { listWords, plain } from './words.ts';

interface Data {
  readonly name: string;
  readonly missing: readonly string[];
}

export const ruleIncomplete = problemKind<Data>({
  code: 'rule_incomplete',
  severity: 'warning',
  title: 'Rule not complete',
  page: `A rule has to say what it asks for, why, and on what authority. A rule without a reason is an order: nobody can tell when it may be set aside, and nobody learns from it.

Add \`why "…"\` in a sentence that a resident would accept, and \`source …\`, which may be \`common_practice\`.`,
  triggers: `
action tally (material m)

rule count_swabs "Swabs are counted" {
//   ^^^^^^^^^^^ rule_incomplete
  count tally (material m) at least once in a visit
}
`,
  silent: `
action tally (material m)

rule count_swabs "Swabs are counted" {
  count  tally (material m) at least once in a visit
  why    "What is not counted is not missed"
  source common_practice
}
`,
  words: ({ name, missing }) => ({
    message: `The rule "${plain(name)}" does not say ${listWords(missing.map((word) => (word === 'source' ? 'what it rests on' : word)))}.`,
    label: `${listWords(missing, 'and')} missing`,
  }),
});
