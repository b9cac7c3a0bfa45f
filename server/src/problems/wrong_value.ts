import { problemKind } from './problem.ts';
import { plain } from './words.ts';

interface Data {
  readonly property: string;
  /** what belongs here, in plain words */
  readonly wanted: string;
}

export const wrongValue = problemKind<Data>({
  code: 'wrong_value',
  severity: 'error',
  title: 'Value of another sort',
  page: `A property is given a value of another sort than its kind declares: a name where a quantity belongs, a text where yes or no belongs. It cannot be compared with anything, so nothing that hangs on it is judged.

Write a value of the sort that the message names.`,
  triggers: `
kind graft "bone graft" is material {
  mineralised : yes or no
  particle    : length range
}

graft clinic_mix "Cortical and cancellous mix" {
  mineralised "mostly"
  //          ^^^^^^^^ wrong_value
  particle    fine
  //          ^^^^ wrong_value
}
`,
  silent: `
kind graft "bone graft" is material {
  mineralised : yes or no
  particle    : length range
}

graft clinic_mix "Cortical and cancellous mix" {
  mineralised yes
  particle    300..900 um
}
`,
  words: ({ property, wanted }) => ({
    message: `"${plain(property)}" wants ${wanted}.`,
    label: `${wanted} belongs here`,
  }),
});
