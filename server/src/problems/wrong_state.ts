import type { Way } from '../analysis/protocol/flow-words.ts';
import { type Mend, problemKind, type Related, type SourceNote } from './problem.ts';
import { plain, statesWords, waysWords } from './words.ts';

interface Data {
  readonly thing: string;
  /** the state the step needs */
  readonly needed: string;
  /** the step, as its line says it */
  readonly step: string;
  /** how it stands instead */
  readonly ways: readonly Way[];
  /** on every path */
  readonly always: boolean;
  readonly because: string | undefined;
  readonly source: SourceNote | undefined;
  readonly related: readonly Related[];
  readonly mends: readonly Mend[];
}

export const wrongState = problemKind<Data>({
  code: 'wrong_state',
  severity: 'error',
  title: 'Not ready for this step',
  page: `A step needs a thing in a certain state, and on every path or on some it is in another: a graft packed dry, a socket filled before it was cleaned, a site drilled before the images were looked at.

The message says in which state it is, since which step, and on which path. Add the step that is missing, before this one or on the path where it is missing; it is offered where the library knows it. Or move this step to where the thing is ready.`,
  triggers: `
// quiet: missing_head
kind graft "bone graft" is material {
  states dry -> wetted -> packed
}
action wet (graft g) {
  makes g wetted
}
action pack (graft g) into (place p) {
  needs g wetted because "Dry it floats out" source common_practice
  makes g packed
}

protocol socket_graft "Graft a socket" {
  given { site : place }
  materials { granules : graft }
  visit surgery "Surgery" {
    pack granules into site
    //   ^^^^^^^^ wrong_state
  }
}
`,
  silent: `
// quiet: missing_head
kind graft "bone graft" is material {
  states dry -> wetted -> packed
}
action wet (graft g) {
  makes g wetted
}
action pack (graft g) into (place p) {
  needs g wetted because "Dry it floats out" source common_practice
  makes g packed
}

protocol socket_graft "Graft a socket" {
  given { site : place }
  materials { granules : graft }
  visit surgery "Surgery" {
    wet granules
    pack granules into site
  }
}
`,
  words: ({ thing, needed, step, ways, always, because, source, related, mends }) => ({
    message: `Before "${step}", "${thing}" has to be ${plain(needed)}. ${waysWords(thing, ways, always)}`,
    label: `${statesWords(ways)}, not ${plain(needed)}`,
    why: because,
    source,
    related,
    mends,
  }),
});
