import { type FileId, type Mend, problemKind } from './problem.ts';
import { listWords, plain, sentence, untold } from './words.ts';

interface Data {
  /** what cannot be told, in words */
  readonly what: string;
  /** "the ceiling of Articaine" */
  readonly missing: string;
  readonly rule: string | undefined;
  readonly group: string;
  /** the sets there are; `path` leads to the file of one that is not in use here */
  readonly sets: readonly { readonly name: string; readonly label: string; readonly path: string | undefined }[];
  readonly file: FileId;
  /** where a line \`apply\` goes */
  readonly beside: { readonly where: 'before' | 'after'; readonly statement: number } | undefined;
}

export const figuresNotApplied = problemKind<Data>({
  code: 'figures_not_applied',
  severity: 'warning',
  title: 'No set of figures chosen',
  page: `Something that is asked for hangs on a figure of which there are several, because countries, bodies or handbooks disagree. They are kept in sets; an institution chooses one of them, and nothing has been chosen here. None is taken for granted, and what hangs on the figure is not judged.

Choose a set: \`apply NAME because "…"\` in your institution's file, which your protocols use, or in the protocol's own file. The sets there are, each with its sources, are named in the message. It is told once for each group of sets.`,
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

action give (drug d) (mass dose) {
  needs dose <= d.ceiling because "More is a poison" source common_practice
}

protocol block "Block" {
  materials { numbing_drug }
  visit surgery "Surgery" {
    give numbing_drug 200 mg
    //                ^^^^^^ figures_not_applied
  }
}
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

action give (drug d) (mass dose) {
  needs dose <= d.ceiling because "More is a poison" source common_practice
}

protocol block "Block" {
  materials { numbing_drug }
  visit surgery "Surgery" {
    give numbing_drug 200 mg
  }
}
`,
  words: ({ what, missing, rule, group, sets, file, beside }) => ({
    rule,
    message: `It cannot be told ${untold(what)}: ${missing} comes from a set of ${plain(group)}, and none is applied here.${
      sets.length > 0 ? ` There ${sets.length > 1 ? 'are' : 'is'} ${listWords(sets.map(setWords), 'and')}.` : ''
    }`,
    label: `no set of ${plain(group)} applied`,
    mends: sets.flatMap(({ name, label, path }): Mend[] => {
      if (!beside) return [];
      const lines = beside.where === 'before' ? [`apply ${name}`, ''] : [`apply ${name}`];
      const add = path === undefined ? [] : [{ type: 'add use', file, path } as const];
      return [{ title: `Apply "${sentence(label)}"`, edits: [...add, { type: 'insert', file, ...beside, lines }] }];
    }),
  }),
});

function setWords({ name, label, path }: Data['sets'][number]): string {
  return `"${label}" (${name}${path === undefined ? '' : `, in ${path}`})`;
}
