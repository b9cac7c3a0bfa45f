import { type FileId, problemKind } from './problem.ts';
import { plain } from './words.ts';

interface Data {
  readonly property: string;
  readonly group: string;
  readonly file: FileId;
  readonly statement: number;
  /** sets in the same file that the line can go to, and what it is there */
  readonly moves: readonly { readonly label: string; readonly to: number; readonly line: string }[];
}

export const figureOutsideSet = problemKind<Data>({
  code: 'figure_outside_set',
  severity: 'error',
  title: 'Figure outside its sets',
  page: `A figure that bodies disagree about is stated with the thing itself. Its kind says that it comes from a set of figures, so that everybody can see whose figure it is and an institution can choose another. Stated here it would go around that choice; it does not count.

Move the line to the set that it belongs to: \`figures NAME "…" of GROUP { … }\`.`,
  triggers: `
kind drug "drug" is material {
  ceiling : mass from ceilings
}
drug numbing_drug "Numbing drug" {
  ceiling 500 mg source common_practice
//^^^^^^^ figure_outside_set
}
figures house_ceilings "Ceilings of the house" of ceilings { }
`,
  silent: `
kind drug "drug" is material {
  ceiling : mass from ceilings
}
drug numbing_drug "Numbing drug"
figures house_ceilings "Ceilings of the house" of ceilings {
  numbing_drug { ceiling 500 mg source common_practice }
}
`,
  words: ({ property, group, file, statement, moves }) => ({
    message: `The ${plain(property)} comes from the set of ${plain(group)} that is applied. Stated here, it does not count.`,
    label: `belongs in a set of ${plain(group)}`,
    mends: [
      ...moves.map(({ label, to, line }) => ({
        title: `Move it to "${label}"`,
        edits: [
          { type: 'remove' as const, file, statement },
          { type: 'append' as const, file, statement: to, lines: [line] },
        ],
      })),
      { title: 'Remove it here', edits: [{ type: 'remove', file, statement }] },
    ],
  }),
});
