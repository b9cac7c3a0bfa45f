import { problemKind } from './problem.ts';

interface Data {
  readonly written: string;
}

export const caseStart = problemKind<Data>({
  code: 'case_start',
  severity: 'error',
  title: 'No day of the calendar',
  page: `\`start\` is the day of the first visit; from it follow the days on which every later one can be. There is no such day.

Write the year, the month and the day: \`start 2027-03-01\`.`,
  triggers: `
// quiet: missing_head
protocol recall "Look again" {
  visit look "Look at the wound" {
    note "Written down"
  }
}

case first of recall {
  start 2027-02-30
  //    ^^^^^^^^^^ case_start
}
`,
  silent: `
// quiet: missing_head
protocol recall "Look again" {
  visit look "Look at the wound" {
    note "Written down"
  }
}

case first of recall {
  start 2027-02-28
}
`,
  words: ({ written }) => ({ message: `${written} is no day of the calendar.`, label: 'no such day' }),
});
