import { type Place, problemKind } from './problem.ts';

interface Data {
  /** as it is called */
  readonly visit: string;
  /** the first visit itself */
  readonly first: boolean;
  /** ISO 8601; both ends included */
  readonly from: string;
  readonly to: string | undefined;
  /** the next open day, for the first visit */
  readonly next: string | undefined;
  readonly place: Place;
  readonly declared: Place;
}

export const caseDayClosed = problemKind<Data>({
  code: 'case_day_closed',
  severity: 'warning',
  title: 'Visit without an open day',
  page: `From the day on which the case begins follow the days on which each later visit can be. For one of the visits every such day is closed; on which days there are no visits stands in the workspace's \`curette.json\`.

Begin on another day, or agree on a day with whoever opens the rooms and keep to the wait as it stands.`,
  triggers: `
// quiet: missing_head
//- curette.json
{ "closed": { "weekdays": ["saturday", "sunday"] } }

//- recall.curette
protocol recall "Look again" {
  visit look "Look at the wound" {
    note "Written down"
  }
}

case first of recall {
  start 2027-03-06
  //    ^^^^^^^^^^ case_day_closed
}
`,
  silent: `
// quiet: missing_head
//- curette.json
{ "closed": { "weekdays": ["saturday", "sunday"] } }

//- recall.curette
protocol recall "Look again" {
  visit look "Look at the wound" {
    note "Written down"
  }
}

case first of recall {
  start 2027-03-08
}
`,
  words: ({ visit, first, from, to, next, place, declared }) => ({
    message: first
      ? `${from} is closed: "${visit}" cannot be on that day.`
      : `"${visit}" falls on ${from}${to === undefined || to === from ? '' : ` to ${to}`}, and no day of that is open.`,
    label: first ? 'closed' : 'a later visit finds no open day',
    related: [{ place: declared, message: 'the visit' }],
    mends: next === undefined ? [] : [{ title: `Begin on ${next}`, edits: [{ type: 'replace', place, text: next }] }],
  }),
});
