import type { Measure } from '@curette/grammar';
import { type Place, problemKind } from './problem.ts';

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
    mends:
      !low.unit || low.unit.text === high.unit?.text
        ? [
            {
              title: 'Swap the ends',
              edits: [
                { type: 'replace', place: numberOf(lowPlace, low), text: String(high.value) },
                { type: 'replace', place: numberOf(highPlace, high), text: String(low.value) },
              ],
            },
          ]
        : [],
  }),
});

function numberOf(place: Place, measure: Measure): Place {
  const end = measure.unit ? measure.unit.start : place.span.end;
  return {
    ...place,
    span: {
      start: place.span.start,
      end: measure.unit ? Math.min(end, place.span.start + String(measure.value).length) : place.span.end,
    },
  };
}
