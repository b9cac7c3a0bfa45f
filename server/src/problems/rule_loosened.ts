import { type Mend, type Place, problemKind, type SourceNote } from './problem.ts';
import { plain } from './words.ts';

interface Data {
  readonly replaced: string;
  /** the rule in between, when this one replaces a rule that replaces it */
  readonly through: string | undefined;
  /** in what it is looser: "what it expects" */
  readonly about: string;
  /** empty where it says nothing of it any more */
  readonly own: string;
  readonly old: string;
  readonly ownSource: SourceNote | undefined;
  readonly oldSource: SourceNote | undefined;
  /** the replaced rule is an error to break and rests on a published source */
  readonly grave: boolean;
  readonly oldPlace: Place;
  readonly oldWhy: string | undefined;
  readonly mends: readonly Mend[];
  readonly tries: readonly Mend[];
}

export const ruleLoosened = problemKind<Data>({
  code: 'rule_loosened',
  severity: 'warning',
  title: 'Looser than the rule it replaces',
  page: `A rule of an institution replaces one of the library, or of another file in use, and allows what that one forbids: a higher limit, a shorter wait, fewer steps that it speaks of, something that it no longer asks for, or less weight. Whoever follows the institution's protocols is then no longer told of it.

To be stricter is free: it takes a reason (\`why\`) and nothing else. To be looser may be right too, but never by oversight, so it is told for as long as it is so. It is an error where breaking the replaced rule is one and that rule rests on a published source.

Take over the stricter value, or take the line \`replaces\` away: then both rules count.

Two rules are compared by what can be shown from their lines alone: limits and sums, kinds of things and states, number, order, pauses, time between two steps, properties to be stated. Amounts, sizes and times are taken to be nought or more. Where that does not tell which is stricter, it is said so in its own words ([\`not_judged\`](#not_judged)).`,
  triggers: `
// quiet: missing_head
source giving_set_guideline "Guideline on giving sets" { year 2019 }
source ward_rules "Rules of the ward" { strength local_policy }
kind drip "drip" is material
action run (drip d) (volume given) into (place p)

rule little_at_once "Little is given at once" {
  whenever run (drip d) (volume given) into (place p)
  expect   given <= 2 mL
  severity error
  why      "It cannot be taken back"
  source   giving_set_guideline
}

rule our_little_at_once "Little is given at once on this ward" {
  whenever run (drip d) (volume v) into (place p)
  expect   v <= 3 mL
  //       ^^^^^^^^^ rule_loosened (error): volume is at most 3 mL
  severity error
  why      "Our sets hold 3 mL"
  source   ward_rules
  replaces little_at_once
}
`,
  silent: `
// quiet: missing_head
source giving_set_guideline "Guideline on giving sets" { year 2019 }
source ward_rules "Rules of the ward" { strength local_policy }
kind drip "drip" is material
action run (drip d) (volume given) into (place p)

rule little_at_once "Little is given at once" {
  whenever run (drip d) (volume given) into (place p)
  expect   given <= 2 mL
  severity error
  why      "It cannot be taken back"
  source   giving_set_guideline
}

rule our_little_at_once "Little is given at once on this ward" {
  whenever run (drip d) (volume v) into (place p)
  expect   v <= 1500 uL
  severity error
  why      "Our patients are small"
  source   ward_rules
  replaces little_at_once
}
`,
  words: ({ replaced, through, about, own, old, ownSource, oldSource, grave, oldPlace, oldWhy, mends, tries }) => ({
    severity: grave ? 'error' : 'warning',
    message:
      own === ''
        ? `${looser(replaced, through)}: it no longer asks for ${old}${from(oldSource)}.`
        : `${looser(replaced, through)}, in ${about}: ${own}${from(ownSource)} instead of ${old}${from(oldSource)}.`,
    label: 'looser',
    why: oldWhy,
    source: oldSource,
    related: [{ place: oldPlace, message: `the replaced rule: ${old}` }],
    mends,
    tries,
  }),
});

function looser(replaced: string, through: string | undefined): string {
  return `This rule is looser than "${replaced}", which ${through === undefined ? 'it' : `"${through}"`} replaces`;
}

function from(source: SourceNote | undefined): string {
  return source ? ` (${plain(source.name)})` : '';
}
