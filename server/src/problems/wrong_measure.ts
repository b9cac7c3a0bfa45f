import { formatQuantity, type Quantity } from '@curette/shared';
import { problemKind } from './problem.ts';
import { article, plain } from './words.ts';

interface Data {
  /** the property, slot or line that wants it */
  readonly what: string;
  /** the measure wanted: "length", "time" */
  readonly wanted: string;
  readonly found: Quantity | undefined;
}

export const wrongMeasure = problemKind<Data>({
  code: 'wrong_measure',
  severity: 'error',
  title: 'Wrong measure',
  page: `A value measures something else than what is asked for: a length where a volume is wanted, a bare number where a unit is needed, the two ends of a range in different measures.

Correct the unit, or look whether the value stands in the right place.`,
  triggers: `
// quiet: missing_head
action inject (material m) (volume dose) at (place p)

protocol block "Numb a tooth" {
  given { site : place }
  materials { numbing : material }
  visit block "Block" {
    inject numbing 30 mm at site
    //             ^^^^^ wrong_measure
  }
}
`,
  silent: `
// quiet: missing_head
action inject (material m) (volume dose) at (place p)

protocol block "Numb a tooth" {
  given { site : place }
  materials { numbing : material }
  visit block "Block" {
    inject numbing 1.5 mL at site
  }
}
`,
  words: ({ what, wanted, found }) => {
    const is = found ? `${formatQuantity(found)} is ${article(found.dimension.name)}` : 'this is none';
    return {
      message: `"${plain(what)}" wants ${article(wanted)}; ${is}.`,
      label: `${article(wanted)} belongs here`,
    };
  },
});
