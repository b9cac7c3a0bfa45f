import { type Place, problemKind } from './problem.ts';
import { listWords, plain, sentence } from './words.ts';

interface Data {
  readonly property: string;
  readonly thing: string;
  /** in words */
  readonly says: string;
  readonly gives: readonly string[];
  /** the unit that would bring the same number within the range */
  readonly slip: { readonly unit: string; readonly text: string } | undefined;
  /** a range that only reaches out of the protocol's */
  readonly partly: boolean;
  readonly place: Place;
  readonly declared: Place;
}

export const caseOutsideRange = problemKind<Data>({
  code: 'case_outside_range',
  severity: 'error',
  title: 'Outside what the protocol is for',
  page: `A protocol says for which range of a measurement it is meant, and this case lies outside it. All that was checked for the protocol was checked for its range: for this case nothing of it is known to hold.

Measure again, and look at the unit. If the value is right, the protocol is not the one for this case: choose another, or have its owners widen it, which checks it anew for the wider range.`,
  triggers: `
// quiet: missing_head
kind hollow "hollow" is place { depth : length }

protocol fill "Fill a hollow" {
  given { socket : hollow { depth 9..13 mm } }
  visit surgery "Surgery" {
    note "Look"
  }
}

case first of fill {
  socket { depth 11 cm }
  //             ^^^^^ case_outside_range
}
`,
  silent: `
// quiet: missing_head
kind hollow "hollow" is place { depth : length }

protocol fill "Fill a hollow" {
  given { socket : hollow { depth 9..13 mm } }
  visit surgery "Surgery" {
    note "Look"
  }
}

case first of fill {
  socket { depth 11 mm }
}
`,
  words: ({ property, thing, says, gives, slip, partly, place, declared }) => ({
    message: `${sentence(plain(property))} of "${thing}" is ${says} here; the protocol is for ${listWords(gives)}${partly ? ', which this reaches out of' : ''}.${slip ? ` Was ${slip.text} meant?` : ''}`,
    label: `the protocol is for ${listWords(gives)}`,
    related: [{ place: declared, message: 'what the protocol is for' }],
    mends: slip
      ? [{ title: `Change the unit to ${slip.unit}`, edits: [{ type: 'replace', place, text: slip.text }] }]
      : [],
  }),
});
