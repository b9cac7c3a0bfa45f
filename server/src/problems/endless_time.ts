import { formatQuantity, type Quantity } from '@curette/shared';
import { problemKind } from './problem.ts';

interface Data {
  readonly least: Quantity;
}

export const endlessTime = problemKind<Data>({
  code: 'endless_time',
  severity: 'advice',
  title: 'No longest time',
  page: `A line says how long something takes at least, and not how long at most. So nothing that comes after it can be timed: whether a limit is kept behind it, when the next step begins, how long the chair is occupied.

Say the longest time as well, from your own experience if there is nothing better: \`takes 5..20 min\`. Which number that is nobody can say for you, so none is put in. A wait is another matter: \`wait at least 5 min\` leaves its length to the team.`,
  triggers: `
// quiet: missing_head
action extract (place p)

protocol extraction "Extraction" {
  given { site : place }
  visit surgery "Surgery" {
    extract site takes at least 5 min
    //                 ^^^^^^^^^^^^^^ endless_time
  }
}
`,
  silent: `
// quiet: missing_head
action extract (place p)

protocol extraction "Extraction" {
  given { site : place }
  visit surgery "Surgery" {
    extract site takes 5..20 min
    wait at least 5 min
    extract site takes at most 20 min
  }
}
`,
  words: ({ least }) => ({
    message: `Nothing says how long this takes at most (${formatQuantity(least)}), so nothing after it can be timed. Say the longest time as well.`,
    label: 'no longest time',
  }),
});
