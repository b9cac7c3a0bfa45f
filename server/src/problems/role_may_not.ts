import { type Place, problemKind, type SourceNote } from './problem.ts';
import { listWords, plain } from './words.ts';

interface Data {
  readonly role: string;
  readonly verb: string;
  readonly allowed: readonly string[];
  readonly place: Place;
  readonly source: SourceNote | undefined;
}

export const roleMayNot = problemKind<Data>({
  code: 'role_may_not',
  severity: 'error',
  title: 'Not for this role',
  page: `An action says who may do it, and the step gives it to somebody else. What a role may do is a matter of training, licence and local rule, and it was written down so that it need not be argued at the chair.

Give the step to one of the roles named. If local rules allow more, that is said where the action is declared.`,
  triggers: `
// quiet: missing_head
action place_implant "Place the implant" (material i) {
  by surgeon
}

protocol implant "Place an implant" {
  team { surgeon, assistant }
  materials { fixture : material }
  visit surgery "Surgery" {
    place_implant fixture by assistant
    //                       ^^^^^^^^^ role_may_not
  }
}
`,
  silent: `
// quiet: missing_head
action place_implant "Place the implant" (material i) {
  by surgeon
}

protocol implant "Place an implant" {
  team { surgeon, assistant }
  materials { fixture : material }
  visit surgery "Surgery" {
    place_implant fixture by surgeon
  }
}
`,
  words: ({ role, verb, allowed, place, source }) => ({
    message: `"${plain(verb)}" is for the ${listWords(allowed.map(plain))}, not for the ${plain(role)}.`,
    label: `for the ${listWords(allowed.map(plain))}`,
    source,
    mends: allowed.map((other) => ({
      title: `Give the step to the ${plain(other)}`,
      edits: [{ type: 'replace', place, text: other }],
    })),
  }),
});
