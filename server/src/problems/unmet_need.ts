import type { Solved } from '../analysis/rules/solve.ts';
import { type Place, problemKind, type SourceNote } from './problem.ts';
import { notSo } from './solved-words.ts';
import { plain } from './words.ts';

interface Data {
  readonly verb: string;
  readonly condition: string;
  readonly always: boolean;
  /** on which paths it is not met, where it is on others */
  readonly when: string | undefined;
  /** for which values of a given fact it is not so */
  readonly solved: Solved | undefined;
  readonly because: string | undefined;
  readonly source: SourceNote | undefined;
  readonly declared: Place | undefined;
}

export const unmetNeed = problemKind<Data>({
  code: 'unmet_need',
  severity: 'error',
  title: 'Condition not met',
  page: `An action states a condition on what it is done with, a size, a property, a state, and it is not met: never (an error), or not in all circumstances that the protocol allows for (a warning).

Choose something that fits, narrow the range, or do first what brings it about. The reason that the action gives is shown with the problem.`,
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
  materials { fixture : screw { length 12 mm } }
  visit surgery "Surgery" {
    seat fixture into ridge
    //   ^^^^^^^ unmet_need
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
  materials { fixture : screw { length 10 mm } }
  visit surgery "Surgery" {
    seat fixture into ridge
  }
}
`,
  words: ({ verb, condition, always, when, solved, because, source, declared }) => ({
    message: `"${plain(verb)}" asks that ${condition}; ${notSo(always, solved, when)}.`,
    severity: always ? 'error' : 'warning',
    label: always ? 'not so' : 'not always so',
    why: because,
    source,
    related: declared ? [{ place: declared, message: 'asked for here' }] : [],
  }),
});
