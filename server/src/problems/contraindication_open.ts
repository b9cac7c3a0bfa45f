import { type FileId, type Place, problemKind, type SourceNote } from './problem.ts';
import { relationWords, sentence } from './words.ts';

interface Data {
  readonly thing: string;
  readonly is: string;
  /** what it is called, when it is not a thing but something done */
  readonly action: string | undefined;
  /** `has x`, `takes x`, `allergic to x` */
  readonly relation: string;
  /** contraindicated; else care is asked for */
  readonly strictly: boolean;
  readonly because: string | undefined;
  readonly source: SourceNote | undefined;
  readonly file: FileId;
  readonly protocol: number;
  readonly patient: string;
  readonly ground: Place;
}

export const contraindicationOpen = problemKind<Data>({
  code: 'contraindication_open',
  severity: 'warning',
  title: 'Contraindication not dealt with',
  page: `A material or an instrument in use, or something that is done, is contraindicated for some patients or needs particular care with them, and the protocol neither excludes them nor speaks of them. Whoever follows it could take it to be safe for them.

Write \`exclude when …\` when such patients are not treated by this protocol, or \`caution when …\` when they are, with more care; say why with \`because\`. The question then stands on the first page of the checklist, where it is asked before anything is opened.`,
  triggers: `
// quiet: missing_head
kind glue "tissue adhesive" is material {
  contraindicated when patient allergic to formaldehyde because "It gives some off as it ages" source common_practice
}
action apply (glue g)

protocol close "Close a small wound" {
  given { patient : patient }
  materials { adhesive : glue }
  //          ^^^^^^^^ contraindication_open
  visit closing "Closing" {
    apply adhesive
  }
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
  exclude when patient allergic to formaldehyde
  materials { adhesive : glue }
  visit closing "Closing" {
    apply adhesive
  }
}
`,
  words: ({ thing, is, action, relation, strictly, because, source, file, protocol, patient, ground }) => ({
    message: `${action === undefined ? thingWords(thing, is) : `"${action}"`} ${strictly ? 'is contraindicated' : 'needs care'} when the patient ${relationWords(relation)}, and the protocol neither excludes such patients nor speaks of them.`,
    label: `${strictly ? 'not' : 'with care'} when the patient ${relationWords(relation)}`,
    why: because,
    source,
    related: [{ place: ground, message: strictly ? 'the contraindication' : 'the call for care' }],
    mends: (strictly ? ['exclude', 'caution'] : ['caution', 'exclude']).map((word) => ({
      title: `Add "${word} when ${patient} ${relation}"`,
      edits: [{ type: 'append', file, statement: protocol, lines: [`${word} when ${patient} ${relation}`] }],
    })),
  }),
});

function thingWords(thing: string, is: string): string {
  return `${sentence(is)}${thing.toLowerCase() === is.toLowerCase() ? '' : ` ("${thing}")`}`;
}
