import { problemKind } from './problem.ts';

interface Data {
  /** ISO 8601 */
  readonly due: string;
  readonly last: string;
  readonly counted: 'reviewed' | 'approved';
  readonly owner: string | undefined;
}

export const reviewOverdue = problemKind<Data>({
  code: 'review_overdue',
  severity: 'warning',
  title: 'Review overdue',
  page: `The protocol says how often it is reviewed, and that time has passed since the day of its last review or, where none is written, of its approval. What it rests on may have changed.

Have its owner review it, then write the day: \`reviewed 2026-02-01\`. Months are counted as the calendar has them. A draft and a retired protocol are not asked.`,
  triggers: `
// quiet: missing_head
protocol recall "Recall visit" {
  owner    "Periodontology, Vellamoor Teaching Hospital"
  review   every 12 mo
  //             ^^^^^ review_overdue: 2026-02-28
  reviewed 2025-02-28
  visit recall "Recall" {
    note "Probe all round"
  }
}
`,
  silent: `
// quiet: missing_head
protocol recall "Recall visit" {
  owner    "Periodontology, Vellamoor Teaching Hospital"
  review   every 12 mo
  reviewed 2025-03-01
  visit recall "Recall" {
    note "Probe all round"
  }
}
`,
  words: ({ due, last, counted, owner }) => ({
    message: `The review was due on ${due}: the protocol was ${counted} on ${last}${counted === 'approved' ? ' and no review is written' : ''}. ${owner ? `It belongs to ${owner}: have it` : 'Have it'} reviewed, then write the day, as in "reviewed 2026-02-01".`,
    label: `was due on ${due}`,
  }),
});
