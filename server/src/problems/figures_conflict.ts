import { type FileId, type Mend, type Place, problemKind } from './problem.ts';
import { plain } from './words.ts';

interface Applied {
  readonly label: string;
  /** of the line \`apply\` */
  readonly place: Place;
  readonly statement: number;
}

interface Data {
  readonly group: string;
  readonly one: Applied;
  readonly two: Applied;
  /** the file that is told */
  readonly file: FileId;
}

export const figuresConflict = problemKind<Data>({
  code: 'figures_conflict',
  severity: 'error',
  title: 'Two sets of figures chosen',
  page: `Two sets of figures of one group are applied, in this file or in files that it uses. They disagree, which is why they are sets: no one could tell which figure a limit was judged by. Neither counts until one of them is taken away.

Keep the line \`apply\` of the one that your institution has agreed on, in one place that all protocols use.`,
  triggers: `
// quiet: missing_head
kind drug "drug" is material {
  ceiling : mass from ceilings
}
drug numbing_drug "Numbing drug"
source leaflet "Leaflet of the drug"
source society "Guideline of the society"

figures leaflet_ceilings "Ceilings of the leaflets" of ceilings {
  numbing_drug { ceiling 500 mg source leaflet }
}
figures society_ceilings "Ceilings of the society" of ceilings {
  numbing_drug { ceiling 300 mg source society }
}

apply leaflet_ceilings because "Printed on the box"
apply society_ceilings because "Agreed with the department"
//    ^^^^^^^^^^^^^^^^ figures_conflict
`,
  silent: `
// quiet: missing_head
kind drug "drug" is material {
  ceiling : mass from ceilings
}
drug numbing_drug "Numbing drug"
source leaflet "Leaflet of the drug"
source society "Guideline of the society"

figures leaflet_ceilings "Ceilings of the leaflets" of ceilings {
  numbing_drug { ceiling 500 mg source leaflet }
}
figures society_ceilings "Ceilings of the society" of ceilings {
  numbing_drug { ceiling 300 mg source society }
}

apply society_ceilings because "Agreed with the department"
`,
  words: ({ group, one, two, file }) => ({
    message: `Two sets of ${plain(group)} are applied, "${one.label}" and "${two.label}": neither counts until one is left.`,
    label: 'two sets of one group',
    related: [one, two].map(({ label, place }) => ({ place, message: `"${label}" is applied here` })),
    mends: [
      { keep: one, drop: two },
      { keep: two, drop: one },
    ].flatMap(({ keep, drop }): Mend[] =>
      drop.place.file === file
        ? [{ title: `Keep "${keep.label}" only`, edits: [{ type: 'remove', file, statement: drop.statement }] }]
        : [],
    ),
  }),
});
