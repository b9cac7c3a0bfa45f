import { type Place, problemKind } from './problem.ts';
import { plain, untold } from './words.ts';

interface Data {
  /** what cannot be told, in words */
  readonly what: string;
  /** "the ceiling of Articaine" */
  readonly missing: string;
  readonly rule: string | undefined;
  readonly set: string;
  readonly group: string;
  readonly declared: Place | undefined;
}

export const figureNotStated = problemKind<Data>({
  code: 'figure_not_stated',
  severity: 'warning',
  title: 'Not in the set of figures',
  page: `Something that is asked for hangs on a figure that comes from a set of figures. The set that is applied here says nothing of it, and no other set is asked instead: figures of different sets are never mixed.

Find out what the body that the set comes from says, and add it to the set with its source, or choose another set, or use something else that the set speaks of.`,
  triggers: `
// quiet: missing_head
kind drug "drug" is material {
  ceiling : mass from ceilings
}
drug numbing_drug "Numbing drug"
source leaflet "Leaflet of the drug"
source society "Guideline of the society"
drug other_drug "Other drug"

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
  materials { other_drug }
  visit surgery "Surgery" {
    give other_drug 200 mg
    //              ^^^^^^ figure_not_stated
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
  words: ({ what, missing, rule, set, group, declared }) => ({
    rule,
    message: `It cannot be told ${untold(what)}: "${set}", the set of ${plain(group)} that is applied here, does not state ${missing}.`,
    label: 'not in the set that is applied',
    related: declared ? [{ place: declared, message: `the set that is applied: "${set}"` }] : [],
  }),
});
