import { formatQuantity, type Quantity } from '@curette/shared';
import { type Place, problemKind } from './problem.ts';

interface Data {
  readonly quantity: Quantity;
  /** its units, as they are written */
  readonly units: readonly { readonly text: string; readonly place: Place }[];
}

export const gapInOneSitting = problemKind<Data>({
  code: 'gap_in_one_sitting',
  severity: 'warning',
  title: 'Two visits in one sitting',
  page: `Between two visits less than an hour passes. The patient would stay where they are: it is one visit, and whoever books would book it as one. Nearly always the unit is wrong, and days or months were meant.

If it is meant, put the lines into one visit, with the wait between them: there its time is kept by the clock.`,
  triggers: `
// quiet: missing_head
protocol small "Small lesion" {
  visit surgery "Surgery" { note "Close" }
  wait 7..10 min
  //   ^^^^^^^^^ gap_in_one_sitting
  visit review "Review" { note "Look" }
}
`,
  silent: `
// quiet: missing_head
protocol small "Small lesion" {
  visit surgery "Surgery" { note "Close" }
  wait 7..10 d
  visit review "Review" { note "Look" }
}
`,
  words: ({ quantity, units }) => ({
    message: `${formatQuantity(quantity)} between two visits: both would be in one sitting. ${sentenceOf(units)}`,
    label: 'both visits in one sitting',
    mends: meantFor(units).map(({ unit }) => ({
      title: `Change to "${unit}"`,
      edits: units.map(({ place }) => ({ type: 'replace', place, text: unit })),
    })),
  }),
});

const DAYS = { unit: 'd', words: 'days (d)' };
const MONTHS = { unit: 'mo', words: 'months (mo)' };

/** Minutes are one letter from months; what comes back soonest comes back in days. */
function meantFor(units: Data['units']) {
  return units.every(({ text }) => text === 'min') ? [DAYS, MONTHS] : [DAYS];
}

function sentenceOf(units: Data['units']): string {
  return `Were ${meantFor(units)
    .map(({ words }) => words)
    .join(' or ')} meant?`;
}
