import { type Place, problemKind, type SourceNote } from './problem.ts';

interface Data {
  /** the protocol, as it is called */
  readonly protocol: string;
  /** in words */
  readonly condition: string;
  /** whatever the values turn out to be */
  readonly always: boolean;
  readonly because: string | undefined;
  readonly source: SourceNote | undefined;
  readonly declared: Place;
}

export const caseExcluded = problemKind<Data>({
  code: 'case_excluded',
  severity: 'error',
  title: 'Excluded by the protocol',
  page: `The protocol says for whom it is not meant (\`exclude when …\`), and this case is such a patient. Whether it can be made safe is not a question for this protocol: it was written, and checked, for others.

Choose another protocol, or settle first what excludes the patient and then take the line out of the case. What a case does not state is taken not to apply.`,
  triggers: `
// quiet: missing_head
protocol close "Close a small wound" {
  given { patient : patient }
  exclude when patient has acute_infection because "What is closed in stays in"
  visit closing "Closing" {
    note "Look"
  }
}

case first of close {
  patient { has acute_infection }
  //            ^^^^^^^^^^^^^^^ case_excluded
}
`,
  silent: `
// quiet: missing_head
protocol close "Close a small wound" {
  given { patient : patient }
  exclude when patient has acute_infection because "What is closed in stays in"
  visit closing "Closing" {
    note "Look"
  }
}

case first of close {
  patient { has smoking }
}
`,
  words: ({ protocol, condition, always, because, source, declared }) => ({
    message: always
      ? `"${protocol}" is not for this case: it excludes it when ${condition}.`
      : `"${protocol}" may not be for this case: it excludes it when ${condition}, which is so for a part of what is stated here.`,
    label: always ? 'excluded' : 'may be excluded',
    severity: always ? 'error' : 'warning',
    why: because,
    source,
    related: [{ place: declared, message: 'the exclusion' }],
  }),
});
