import type { Way } from '../analysis/protocol/flow-words.ts';
import { problemKind } from './problem.ts';
import { plain, waysWords } from './words.ts';

interface Data {
  readonly thing: string;
  readonly state: string;
  readonly ways: readonly Way[];
  readonly always: boolean;
}

export const waitInVain = problemKind<Data>({
  code: 'wait_in_vain',
  severity: 'error',
  title: 'Waits for what never comes',
  page: `A wait lasts until a thing has been in a state for some time, but on every path or on some the thing is not in that state at all, so the wait has no end.`,
  triggers: '',
  silent: '',
  words: ({ thing, state, ways, always }) => ({
    message: `${waysWords(thing, ways, always)} Waiting for it to be ${plain(state)} has no end.`,
    label: `never ${plain(state)}`,
  }),
});
