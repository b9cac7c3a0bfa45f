import { formatQuantity, formatSource, type Quantity, type Slip } from '@curette/shared';
import type { Ground } from '../analysis/model.ts';
import { type Place, problemKind, type SourceNote } from './problem.ts';
import { plain, sentence } from './words.ts';

interface Data {
  readonly property: string;
  readonly quantity: Quantity;
  /** how it is written, where that is in another measure */
  readonly written: Quantity | undefined;
  readonly plausible: Quantity;
  /** the unit that would bring the same number within the plausible span */
  readonly slip: Slip | undefined;
  readonly ground: Ground;
  readonly source: SourceNote | undefined;
  readonly place: Place;
}

export const outsidePlausible = problemKind<Data>({
  code: 'outside_plausible',
  severity: 'error',
  title: 'Value out of all proportion',
  page: `A value lies outside the span that its kind takes for plausible. Nearly always the unit is wrong: millimetres for micrometres makes a particle a thousand times too large, milligrams for micrograms a dose a thousand times too strong.

What is written after a material is judged the same way where its kind says \`amount : volume within …\`; cartridges, ampoules and the like by what one of them holds.

The span is not a clinical limit: it is there to catch slips of the pen. If the value is right, the span in the kind's declaration (\`within …\`) is too narrow.`,
  triggers: `
kind graft "bone graft" is material {
  particle : length range within 20 um..3 mm source common_practice
}

graft clinic_mix "Cortical and cancellous mix" {
  particle 300..900 mm
  //       ^^^^^^^^^^^ outside_plausible
}
`,
  silent: `
kind graft "bone graft" is material {
  particle : length range within 20 um..3 mm source common_practice
}

graft clinic_mix "Cortical and cancellous mix" {
  particle 300..900 um
}
`,
  words: ({ property, quantity, written, plausible, slip, ground, source, place }) => ({
    message: `${sentence(plain(property))} ${written ? `${formatQuantity(written)}, which comes to ${formatQuantity(quantity)},` : formatQuantity(quantity)} is ${slip ? slipWords(slip) : 'out of all proportion'}: plausible is ${formatQuantity(plausible)}.${
      slip ? ` Was ${formatQuantity(slip.suggested)} meant?` : ''
    }`,
    label: slip ? `${slip.suggestedUnit.canonical} meant?` : 'out of all proportion',
    why: ground.because,
    source,
    related: [{ place: ground.place, message: `the plausible span of ${plain(property)}` }],
    mends: slip
      ? [
          {
            title: `Change the unit to ${slip.suggestedUnit.canonical}`,
            edits: [{ type: 'replace', place, text: formatSource(slip.suggested) }],
          },
        ]
      : [],
  }),
});

function slipWords(slip: Slip): string {
  const times = slip.factor >= 1 ? slip.factor : 1 / slip.factor;
  return `${times.toLocaleString('en', { maximumFractionDigits: 1 })} times too ${slip.factor >= 1 ? 'large' : 'small'}`;
}
