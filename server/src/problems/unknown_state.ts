import { type Place, problemKind } from './problem.ts';
import { article, listWords, meant, plain, sentence } from './words.ts';

interface Data {
  readonly kind: string;
  readonly state: string;
  readonly states: readonly string[];
  readonly place: Place;
}

export const unknownState = problemKind<Data>({
  code: 'unknown_state',
  severity: 'error',
  title: 'Unknown state',
  page: `A state is named that the kind of thing does not have, so nothing can ever be in it. The states of a kind are those on its \`states\` lines and those of the kinds it is.

Correct the spelling, or add the state with the moves that lead to it.`,
  triggers: `
kind graft "bone graft" is material {
  states dry -> wetted -> packed
}
action wet (graft g) {
  makes g weted
  //      ^^^^^ unknown_state
}
`,
  silent: `
kind graft "bone graft" is material {
  states dry -> wetted -> packed
}
action wet (graft g) {
  makes g wetted
}
`,
  words: ({ kind, state, states, place }) => {
    const { sentence: guess, mends } = meant(state, states, place);
    const known =
      states.length > 0 ? ` It can be ${listWords([...new Set(states)].map(plain))}.` : ' It has no states.';
    return {
      message: `${sentence(article(plain(kind)))} is never "${plain(state)}".${guess === '' ? known : guess}`,
      label: 'no such state',
      mends,
    };
  },
});
