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

The message says in which state it is, since which step, and on which path. The step that is missing is offered where the library knows it.`,
  triggers: '',
  silent: '',
  words: ({ thing, needed, step, ways, always, because, source, related, mends }) => ({
    message: `Before "${step}", "${thing}" has to be ${plain(needed)}. ${waysWords(thing, ways, always)}`,
    label: `${statesWords(ways)}, not ${plain(needed)}`,
    why: because,
    source,
    related,
    mends,
  }),
});
