import type { Way } from '../analysis/protocol/flow-words.ts';
import { type Mend, problemKind } from './problem.ts';
import { plain, waysWords } from './words.ts';

interface Data {
  readonly thing: string;
  readonly state: string;
  readonly ways: readonly Way[];
  readonly always: boolean;
  /** it comes to be in the state when the one it is in has lasted its time */
  readonly byItself: boolean;
  readonly mends: readonly Mend[];
}

export const waitInVain = problemKind<Data>({
  code: 'wait_in_vain',
  severity: 'error',
  title: 'Waits for what never comes',
  page: `A wait lasts until a thing has been in a state for some time, but on every path, or on the path that is named, the thing is not in that state at all. So the wait has no end.

Bring the thing into the state before the wait, or wait for another. A state that comes by itself, because the one before it \`lasts at most …, then\` this one, is waited for without a time first: \`wait until paste is set\`.`,
  triggers: `
// quiet: missing_head
kind graft "bone graft" is material {
  states dry -> wetted -> packed
}
action wet (graft g) {
  makes g wetted
}

protocol socket_graft "Graft a socket" {
  materials { granules : graft }
  visit surgery "Surgery" {
    wait until granules is wetted for 10 min
//  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ wait_in_vain
    wet granules
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

protocol socket_graft "Graft a socket" {
  materials { granules : graft }
  visit surgery "Surgery" {
    wet granules
    wait until granules is wetted for 10 min
  }
}
`,
  words: ({ thing, state, ways, always, byItself, mends }) => ({
    message: `${waysWords(thing, ways, always)} ${
      byItself
        ? `It becomes ${plain(state)} by itself: that is waited for first, and how long it has been so after that.`
        : `Waiting for it to be ${plain(state)} has no end.`
    }`,
    label: byItself ? `not yet ${plain(state)}` : `never ${plain(state)}`,
    mends,
  }),
});
