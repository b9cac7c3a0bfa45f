import { type Mend, type Place, problemKind, type Severity, type SourceNote } from './problem.ts';
import { sentence, whenHead } from './words.ts';

interface Data {
  readonly rule: string;
  readonly label: string;
  readonly severity: Severity;
  /** what is not as the rule asks, in words: "there is no count before sign out" */
  readonly wrong: string;
  /** true when what is owed never comes, false when something comes that may not come now */
  readonly missing: boolean;
  readonly always: boolean;
  readonly when: string | undefined;
  readonly why: string | undefined;
  readonly source: SourceNote | undefined;
  readonly declared: Place;
  readonly mends: readonly Mend[];
}

export const ruleOrderBroken = problemKind<Data>({
  code: 'rule_order_broken',
  severity: 'warning',
  title: 'Rule about order broken',
  page: `A rule says in which order steps come, how often they come, or which safety pause belongs before or after them. On some path through the visit it is not so; the message names the path.

Move the step or the pause, or add the one that is missing. If your institution has reason to do otherwise, declare a rule of its own that \`replaces\` this one and says why.`,
  triggers: `
// quiet: missing_head
pause count_in "Opening count" {
  takes 1..2 min
}
action incise (place p)

rule count_before_incision "Swabs are counted before the incision" {
  pause    count_in before incise (place p)
  severity error
  why      "What was never counted in cannot be missed at the end"
  source   common_practice
}

protocol flap "Raise a flap" {
  given { site : place }
  visit surgery "Surgery" {
    incise site
//  ^^^^^^^^^^^ count_before_incision
    pause count_in
  }
}
`,
  silent: `
// quiet: missing_head
pause count_in "Opening count" {
  takes 1..2 min
}
action incise (place p)

rule count_before_incision "Swabs are counted before the incision" {
  pause    count_in before incise (place p)
  severity error
  why      "What was never counted in cannot be missed at the end"
  source   common_practice
}

protocol flap "Raise a flap" {
  given { site : place }
  visit surgery "Surgery" {
    pause count_in
    incise site
  }
}
`,
  words: ({ rule, label, severity, wrong, missing, always, when, why, source, declared, mends }) => ({
    rule,
    severity,
    title: label,
    message: `${sentence(`${whenHead(when ?? '')}${wrong}`)}${always || when ? '' : ', on some path'}.`,
    label: missing ? 'something is missing' : wrong,
    why,
    source,
    related: [{ place: declared, message: `rule ${rule}` }],
    mends,
  }),
});
