import { type Place, problemKind } from './problem.ts';

interface Data {
  readonly label: string;
  readonly decision: Place;
}

export const caseWithoutOption = problemKind<Data>({
  code: 'case_without_option',
  severity: 'error',
  title: 'Nothing is said for this finding',
  page: `The case has a finding for which a decision of its protocol names no option. Whoever follows it stands there without an instruction.

The protocol has the gap: add the option there, or an \`otherwise\`.`,
  triggers: `
// quiet: missing_head, option_missing
finding bleeding "Bleeding" { stopped, brisk }

protocol close "Close a small wound" {
  visit closing "Closing" {
    decide bleeding "Look" {
      option stopped { }
    }
  }
}

case first of close {
  bleeding brisk
  //       ^^^^^ case_without_option
}
`,
  silent: `
// quiet: missing_head, option_missing
finding bleeding "Bleeding" { stopped, brisk }

protocol close "Close a small wound" {
  visit closing "Closing" {
    decide bleeding "Look" {
      option stopped { }
    }
  }
}

case first of close {
  bleeding stopped
}
`,
  words: ({ label, decision }) => ({
    message: `The decision "${label}" says nothing of what is found in this case.`,
    label: 'no option',
    related: [{ place: decision, message: 'the decision' }],
  }),
});
