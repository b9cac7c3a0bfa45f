import { type Mend, type Place, problemKind } from './problem.ts';
import { listWords } from './words.ts';

interface Data {
  readonly rule: string;
  /** the rules of the ring, this one first; none besides: it replaces itself */
  readonly ring: readonly { readonly label: string; readonly place: Place }[];
  readonly mends: readonly Mend[];
}

export const rulesInRing = problemKind<Data>({
  code: 'rules_in_ring',
  severity: 'error',
  title: 'Rules replace each other',
  page: `A rule replaces another that, itself or by further rules, replaces the first; or a rule replaces itself. Nobody can tell which of them is meant to count, so all of them do, as if none replaced any other of the ring.

Take the line \`replaces\` away from the rule that is to be replaced. A rule that is tightened step by step replaces the one before it, and the last of the row counts.`,
  triggers: `
// quiet: missing_head
action tally (material m)

rule count_once "Swabs are counted" {
  count    tally (material m) at least once in a visit
  why      "What is not counted is not missed"
  source   common_practice
  replaces count_twice
  //       ^^^^^^^^^^^ rules_in_ring
}

rule count_twice "Swabs are counted twice" {
  count    tally (material m) at least 2 times in a visit
  why      "One can miscount"
  source   common_practice
  replaces count_once
  //       ^^^^^^^^^^ rules_in_ring
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
`,
  words: ({ rule, ring, mends }) => {
    const others = ring.slice(1);
    return {
      message:
        others.length === 0
          ? `"${rule}" replaces itself: it counts as if it replaced nothing.`
          : `"${rule}" and ${listWords(
              others.map(({ label }) => `"${label}"`),
              'and',
            )} replace each other: nobody can tell which is to count, so all of them do.`,
      label: 'leads back to this rule',
      related: others.map(({ label, place }) => ({ place, message: `"${label}" replaces the next one here` })),
      mends,
    };
  },
});
