import { type Place, problemKind, type SourceNote } from './problem.ts';
import { sentence } from './words.ts';

interface Data {
  /** what it is: a thing or something done; what the protocol calls it */
  readonly is: string;
  readonly label: string;
  readonly done: boolean;
  /** in words */
  readonly condition: string;
  readonly because: string | undefined;
  readonly source: SourceNote | undefined;
  readonly declared: Place;
  /** where the protocol lists it, or does it first */
  readonly listed: Place;
}

export const caseContraindicated = problemKind<Data>({
  code: 'case_contraindicated',
  severity: 'error',
  title: 'Contraindicated for this patient',
  page: `A material or an instrument that is used in this case, or something that is done in it, is contraindicated for this patient. The protocol does not exclude such patients: it may ask for care with them, but it goes on all the same.

Use or do something else, in a protocol that provides for it, or take the line out of the case if it does not apply. Local codes, product labelling and licensed practice come first.`,
  triggers: `
// quiet: missing_head
kind glue "tissue adhesive" is material {
  contraindicated when patient allergic to formaldehyde because "It gives some off as it ages" source common_practice
}
action apply (glue g)

protocol close "Close a small wound" {
  given { patient : patient }
  caution when patient allergic to formaldehyde
  materials { adhesive : glue }
  visit closing "Closing" {
    apply adhesive
  }
}

case first of close {
  patient { allergic to formaldehyde }
  //                    ^^^^^^^^^^^^ case_contraindicated
  //                    ^^^^^^^^^^^^ case_cautioned
}
`,
  silent: `
// quiet: missing_head
kind glue "tissue adhesive" is material {
  contraindicated when patient allergic to formaldehyde because "It gives some off as it ages" source common_practice
}
action apply (glue g)

protocol close "Close a small wound" {
  given { patient : patient }
  caution when patient allergic to formaldehyde
  materials { adhesive : glue }
  visit closing "Closing" {
    apply adhesive
  }
}

case first of close {
  patient { allergic to latex }
}
`,
  words: ({ is, label, done, condition, because, source, declared, listed }) => ({
    message: `${
      done
        ? `"${label}" is done in this case`
        : `${sentence(is)}${label.toLowerCase() === is.toLowerCase() ? '' : ` ("${label}")`} is used in this case`
    }, and is contraindicated when ${condition}.`,
    label: 'contraindicated',
    why: because,
    source,
    related: [
      { place: declared, message: 'the contraindication' },
      { place: listed, message: done ? 'done here' : 'listed here' },
    ],
  }),
});
