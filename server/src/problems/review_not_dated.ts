import { problemKind } from './problem.ts';

type Data = Readonly<Record<string, never>>;

export const reviewNotDated = problemKind<Data>({
  code: 'review_not_dated',
  severity: 'advice',
  title: 'Review with no day',
  page: `The protocol is approved and says how often it is reviewed, but neither when it was reviewed nor when it was approved. So nobody can tell when its review is due.

Write the day: \`reviewed 2026-02-01\` or \`approved 2026-02-03 by "Teaching committee"\`.`,
  triggers: `
// quiet: missing_head
protocol recall "Recall visit" {
  status approved
  review every 12 mo
  //           ^^^^^ review_not_dated
  visit recall "Recall" {
    note "Probe all round"
  }
}
`,
  silent: `
// quiet: missing_head
protocol recall "Recall visit" {
  status   approved
  review   every 12 mo
  reviewed 2026-02-01
  visit recall "Recall" {
    note "Probe all round"
  }
}
`,
  words: () => ({
    message:
      'When the review is due cannot be told: the protocol says neither when it was reviewed nor when it was approved. Write the day, as in "reviewed 2026-02-01".',
    label: 'since when?',
  }),
});
