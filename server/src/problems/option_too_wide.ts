import { type Place, problemKind } from './problem.ts';
import { listWords } from './words.ts';

interface Data {
  readonly findings: readonly string[];
  /** parts that the option has between its commas */
  readonly values: number;
  /** the same values of the one finding joined by "or", and what that takes the place of */
  readonly or: { readonly place: Place; readonly text: string } | undefined;
}

export const optionTooWide = problemKind<Data>({
  code: 'option_too_wide',
  severity: 'error',
  title: 'More than was looked at',
  page: `In an option a comma parts what is said of one finding from what is said of the next, in the order in which the decision names them. Here more is said than the decision looks at, so what comes last belongs to no finding and was left out of account.

Where several values of one finding lead to the same option, join them with \`or\`. Where another finding was meant, name it in the decision as well.`,
  triggers: `
// quiet: missing_head
finding bleeding "Bleeding" { stopped, oozing, brisk }

protocol extraction "Extraction" {
  visit surgery "Surgery" {
    decide bleeding "Look once more" {
      option stopped, oozing { }
      //              ^^^^^^ option_too_wide
      otherwise { note "Press for five minutes" }
    }
  }
}
`,
  silent: `
// quiet: missing_head
finding bleeding "Bleeding" { stopped, oozing, brisk }

protocol extraction "Extraction" {
  visit surgery "Surgery" {
    decide bleeding "Look once more" {
      option stopped or oozing { }
      otherwise { note "Press for five minutes" }
    }
  }
}
`,
  words: ({ findings, values, or }) => ({
    message: `This option speaks of ${values} findings, and the decision looks at ${findings.length === 1 ? 'one' : findings.length}: ${listWords(
      findings.map((finding) => finding.toLowerCase()),
      'and',
    )}.`,
    label: 'of no finding',
    mends: or
      ? [{ title: `Write "${or.text.trim()}"`, edits: [{ type: 'replace', place: or.place, text: or.text }] }]
      : [],
  }),
});
