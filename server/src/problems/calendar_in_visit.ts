import { formatQuantity, type Quantity } from '@curette/shared';
import { type Place, problemKind } from './problem.ts';

interface Data {
  readonly quantity: Quantity;
  /** its units, as they are written */
  readonly units: readonly { readonly text: string; readonly place: Place }[];
}

export const calendarInVisit = problemKind<Data>({
  code: 'calendar_in_visit',
  severity: 'error',
  title: 'Months within a visit',
  page: `Months and years are calendar time: no two of them are equally long, and nobody waits one out beside the chair. They belong between visits, where \`wait 4..6 mo\` stands beside the visits. Inside a visit time runs by the clock: seconds, minutes, hours.

Often \`mo\` was typed for \`min\`. If months were meant, end the visit here and begin another after the wait.`,
  triggers: `
// quiet: missing_head
protocol soak "Soak the graft" {
  visit surgery "Surgery" {
    wait 10 mo
    //   ^^^^^ calendar_in_visit
  }
}
`,
  silent: `
// quiet: missing_head
protocol soak "Soak the graft" {
  visit surgery "Surgery" {
    wait 10 min
  }
}
`,
  words: ({ quantity, units }) => ({
    message: `${formatQuantity(quantity)} is calendar time and belongs between visits; inside a visit time is in minutes or hours.`,
    label: 'calendar time inside a visit',
    mends:
      units.length > 0 && units.every(({ text }) => text === 'mo')
        ? [
            {
              title: 'Change to "min"',
              edits: units.map(({ place }) => ({ type: 'replace', place, text: 'min' })),
            },
          ]
        : [],
  }),
});
