import { type Place, problemKind } from './problem.ts';

interface Data {
  readonly thing: string;
  readonly other: Place;
  readonly verb: string;
  readonly otherVerb: string;
}

export const lanesConflict = problemKind<Data>({
  code: 'lanes_conflict',
  severity: 'warning',
  title: 'Two lanes work on one thing',
  page: `Two lanes of work side by side handle the same thing, and at least one of them changes it. Which comes first is then left to chance, so it cannot be told in which state the thing is when the other lane comes to it.

Put both steps into one lane, or do one of them before or after the work side by side.`,
  triggers: `
// quiet: missing_head, not_judged
kind graft "bone graft" is material {
  states dry -> wetted -> packed
}
action wet (graft g) {
  makes g wetted
}
action pack (graft g) into (place p) {
  needs g wetted
  makes g packed
}

protocol graft_socket "Graft a socket" {
  given { site : place }
  team { surgeon, assistant }
  materials { granules : graft }
  visit surgery "Surgery" {
    wet granules
    together {
      lane chairside by surgeon {
        pack granules into site
      }
      lane side_table by assistant {
        wet granules
        //  ^^^^^^^^ lanes_conflict
      }
    }
  }
}
`,
  silent: `
// quiet: missing_head, not_judged
kind graft "bone graft" is material {
  states dry -> wetted -> packed
}
action wet (graft g) {
  makes g wetted
}
action pack (graft g) into (place p) {
  needs g wetted
  makes g packed
}
action retract (place p)

protocol graft_socket "Graft a socket" {
  given { site : place }
  team { surgeon, assistant }
  materials { granules : graft }
  visit surgery "Surgery" {
    wet granules
    together {
      lane chairside by surgeon {
        pack granules into site
      }
      lane side_table by assistant {
        retract site
      }
    }
  }
}
`,
  words: ({ thing, other, verb, otherVerb }) => ({
    message: `"${thing}" is handled here ("${verb}") and in another lane ("${otherVerb}"); which comes first is not fixed.`,
    label: 'also handled in another lane',
    related: [{ place: other, message: 'the step in the other lane' }],
  }),
});
