import { problemKind } from './problem.ts';
import { untold } from './words.ts';

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
  page: `Something that an action or a rule asks for can be neither confirmed nor denied from what is written. It is not taken for granted: an unanswered question looks like a good answer to everybody who comes after.

State what is missing; the message names it. Where it is only known for one patient, give the range that the protocol is meant for.`,
  triggers: `
// quiet: missing_head
kind screw "implant" is material {
  length : length
}
action seat (screw s) into (bone b) {
  needs s.length <= 10 mm because "The canal lies deeper" source common_practice
}

protocol implant "Place an implant" {
  given { ridge : bone }
  materials { fixture : screw }
  visit surgery "Surgery" {
    seat fixture into ridge
    //   ^^^^^^^ undecided
  }
}
`,
  silent: `
// quiet: missing_head
kind screw "implant" is material {
  length : length
}
action seat (screw s) into (bone b) {
  needs s.length <= 10 mm because "The canal lies deeper" source common_practice
}

protocol implant "Place an implant" {
  given { ridge : bone }
  materials { fixture : screw { length 8 mm } }
  visit surgery "Surgery" {
    seat fixture into ridge
  }
}
`,
  words: ({ what, missing, rule }) => ({
    rule,
    message: `It cannot be told ${untold(what)}: ${missing} is not stated.`,
    label: `${missing} not stated`,
  }),
});
