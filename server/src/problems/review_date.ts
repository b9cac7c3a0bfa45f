import { problemKind } from './problem.ts';

interface Data {
  readonly what: 'reviewed' | 'approved';
  readonly written: string;
  /** the day it is, where the day that is written exists but has not come; ISO 8601 */
  readonly today: string | undefined;
}

export const reviewDate = problemKind<Data>({
  code: 'review_date',
  severity: 'warning',
  title: 'No such day of review',
  page: `\`reviewed\` and \`approved\` say on which day that was done. The day that is written is not in the calendar, or has not come yet, so it cannot tell that anything was done.

Write the day on which it was done: the year, the month and the day.`,
  triggers: `
// quiet: missing_head
protocol recall "Recall visit" {
  reviewed 2026-02-30
  //       ^^^^^^^^^^ review_date: calendar
  visit recall "Recall" {
    note "Probe all round"
  }
}
`,
  silent: `
// quiet: missing_head
protocol recall "Recall visit" {
  reviewed 2026-02-28
  visit recall "Recall" {
    note "Probe all round"
  }
}
`,
  words: ({ what, written, today }) =>
    today === undefined
      ? { message: `${written} is no day of the calendar. Write the day it was ${what}.`, label: 'no such day' }
      : { message: `${written} has not come: today is ${today}. Write the day it was ${what}.`, label: 'has not come' },
});
