import type { Measure } from '@curette/grammar';
import { type Place, problemKind } from './problem.ts';
import { measureSource } from './words.ts';

interface Data {
  readonly low: Measure;
  readonly high: Measure;
  readonly lowPlace: Place;
  readonly highPlace: Place;
}

export const reversedRange = problemKind<Data>({
  code: 'reversed_range',
  severity: 'error',
  title: 'Range the wrong way round',
  page: `A range runs from its smaller end to its larger one. Here the first end is the larger, so no value lies between them, and nothing that hangs on the range can be judged.

Swap the two ends; or look whether a digit or a unit has slipped.`,
  triggers: `
// quiet: missing_head
action extract (place p)

protocol extraction "Extraction" {
  given { site : place }
  visit surgery "Surgery" {
    extract site takes 40..10 min
    //                 ^^^^^^^^^^ reversed_range
  }
}
`,
  silent: `
// quiet: missing_head
action extract (place p)

protocol extraction "Extraction" {
  given { site : place }
  visit surgery "Surgery" {
    extract site takes 10..40 min
  }
}
`,
  words: ({ low, high, lowPlace, highPlace }) => ({
    message: `No value lies between ${low.value}${low.unit ? ` ${low.unit.text}` : ''} and ${high.value}${high.unit ? ` ${high.unit.text}` : ''}: the range is written the wrong way round.`,
    label: 'larger end first',
    mends: [
      {
        title: 'Swap the ends',
        edits: [
          { type: 'replace', place: lowPlace, text: measureSource({ ...high, unit: low.unit && high.unit }) },
          { type: 'replace', place: highPlace, text: measureSource({ ...low, unit: low.unit ?? high.unit }) },
        ],
      },
    ],
  }),
});
