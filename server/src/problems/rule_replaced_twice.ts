import { type Mend, type Place, problemKind } from './problem.ts';

interface Data {
  readonly replaced: string;
  readonly one: { readonly label: string; readonly place: Place };
  readonly two: { readonly label: string; readonly place: Place };
  readonly mends: readonly Mend[];
}

export const ruleReplacedTwice = problemKind<Data>({
  code: 'rule_replaced_twice',
  severity: 'warning',
  title: 'Rule replaced twice',
  page: `Two rules that count in the same place both replace one rule. The replaced rule does not count any more, and both of the others do: whoever wrote the second may not have known of the first, and a step is told of twice or by a rule that was thought to be gone.

Let the newer rule replace the other one, so that the row is plain, or take one of the two away. It is told where the two first come together: in the file of the second one, or at the line \`use\` that brings it in.`,
  triggers: `
// quiet: missing_head
action tally (material m)

rule count_once "Swabs are counted" {
  count    tally (material m) at least once in a visit
  why      "What is not counted is not missed"
  source   common_practice
}

rule count_twice "Swabs are counted twice" {
  count    tally (material m) at least 2 times in a visit
  why      "One can miscount"
  source   common_practice
  replaces count_once
}

rule count_thrice "Swabs are counted three times" {
  count    tally (material m) at least 3 times in a visit
  why      "Before, at closing and at the end"
  source   common_practice
  replaces count_once
  //       ^^^^^^^^^^ rule_replaced_twice
}
`,
  silent: `
// quiet: missing_head
action tally (material m)

rule count_once "Swabs are counted" {
  count    tally (material m) at least once in a visit
  why      "What is not counted is not missed"
  source   common_practice
}

rule count_twice "Swabs are counted twice" {
  count    tally (material m) at least 2 times in a visit
  why      "One can miscount"
  source   common_practice
  replaces count_once
}

rule count_thrice "Swabs are counted three times" {
  count    tally (material m) at least 3 times in a visit
  why      "Before, at closing and at the end"
  source   common_practice
  replaces count_twice
}
`,
  words: ({ replaced, one, two, mends }) => ({
    message: `"${one.label}" and "${two.label}" both replace "${replaced}": both of them count.`,
    label: 'replaced already',
    related: [one, two].map(({ label, place }) => ({ place, message: `"${label}" replaces it here` })),
    mends,
  }),
});
