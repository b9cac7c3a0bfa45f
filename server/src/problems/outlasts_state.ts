import { formatQuantity, type Quantity } from '@curette/shared';
import type { SetNote } from '../analysis/model.ts';
import { type Mend, type Place, problemKind, type SourceNote } from './problem.ts';
import { inSets, plain } from './words.ts';

interface Data {
  /** what asks for the state to be that old */
  readonly what: 'wait' | 'need';
  /** the thing in quotes, or what sort of thing */
  readonly thing: string;
  readonly state: string;
  readonly asked: Quantity;
  readonly limit: Quantity;
  /** the sets of figures that one or the other comes from */
  readonly sets: readonly SetNote[];
  /** the state that follows */
  readonly then: string | undefined;
  readonly because: string | undefined;
  readonly source: SourceNote | undefined;
  readonly declared: Place;
  readonly mends: readonly Mend[];
}

export const outlastsState = problemKind<Data>({
  code: 'outlasts_state',
  severity: 'error',
  title: 'Longer than the state lasts',
  page: `A wait, or what a step needs, asks that a thing has been in a state for longer than that state lasts. It can never be had: before the time is over, the thing is in the state that comes next. A graft that dries out after an hour is not waited for until it has been wetted for seventy minutes.

Wait for less, or look at the limit: it stands with the kind of thing (\`wetted lasts at most soak.longest\`) and, where it names a property, in the thing's own values.`,
  triggers: `
// quiet: missing_head
kind graft "bone graft" is material {
  states dry -> wetted -> packed
  wetted lasts at most 60 min, then dried_out source common_practice
}
action wet (graft g) {
  makes g wetted
}
action pack (graft g) {
  needs g wetted for 70..90 min
  //                 ^^^^^^^^^^ outlasts_state
  makes g packed
}

protocol socket_graft "Graft a socket" {
  materials { granules : graft }
  visit surgery "Surgery" {
    wet granules
    wait until granules is wetted for 70 min
    //                                ^^^^^^ outlasts_state
  }
}
`,
  silent: `
// quiet: missing_head
kind graft "bone graft" is material {
  states dry -> wetted -> packed
  wetted lasts at most 60 min, then dried_out source common_practice
}
action wet (graft g) {
  makes g wetted
}
action pack (graft g) {
  needs g wetted for 10..90 min
  makes g packed
}

protocol socket_graft "Graft a socket" {
  materials { granules : graft }
  visit surgery "Surgery" {
    wet granules
    wait until granules is wetted for 60 min
  }
}
`,
  words: ({ what, thing, state, asked, limit, sets, then, because, source, declared, mends }) => ({
    message: `${what === 'wait' ? `This waits until ${thing} has been` : `This needs ${thing} to have been`} ${plain(state)} for ${formatQuantity(asked)}, but it is ${plain(state)} for at most ${formatQuantity(limit)}${then ? `, then it is ${plain(then)}` : ''}${inSets(sets)}.`,
    label: `longer than ${formatQuantity(limit)}`,
    why: because,
    source,
    related: [{ place: declared, message: `lasts at most ${formatQuantity(limit)}` }],
    mends,
  }),
});
