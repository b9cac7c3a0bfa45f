import { problemKind } from './problem.ts';

interface Data {
  /** what is read but not judged, in words */
  readonly what: string;
}

export const notJudged = problemKind<Data>({
  code: 'not_judged',
  severity: 'advice',
  title: 'Read, not judged yet',
  page: `The language can say this, and the text is read and kept, but this version of the checker does not judge it. It says so rather than let it pass for checked.

Nothing is wrong with the line. Judge it yourself, as you would without the checker.`,
  triggers: `
// quiet: missing_head
protocol recall "Recall visit" {
//       ^^^^^^ not_judged
  approved 2026-02-03 by "Teaching committee"
  visit recall "Recall" {
    note "Probe all round"
  }
}
`,
  silent: `
// quiet: missing_head
protocol recall "Recall visit" {
  visit recall "Recall" {
    note "Probe all round"
  }
}
`,
  words: ({ what }) => ({ message: `Read but not judged yet: ${what}.`, label: 'not judged yet' }),
});
