import type { Way } from '../analysis/protocol/flow-words.ts';
import { type Mend, problemKind, type Related, type SourceNote } from './problem.ts';
import { listWords, plain, sentence, statesWords, whenHead } from './words.ts';

interface Data {
  readonly thing: string;
  /** the states it may end in */
  readonly allowed: readonly string[];
  /** where that falls due: "at the end of the visit" */
  readonly by: string;
  readonly ways: readonly Way[];
  readonly always: boolean;
  readonly because: string | undefined;
  readonly source: SourceNote | undefined;
  readonly related: readonly Related[];
  readonly mends: readonly Mend[];
}

export const leftUndone = problemKind<Data>({
  code: 'left_undone',
  severity: 'error',
  title: 'Left as it must not be',
  page: `Some things must be in a certain state by the end of a visit, of the protocol, or before a pause: what goes into the patient and must come out, what is opened and must be used or thrown away. On every path, or on the path that is named, it is not.

This is how a pack, a swab or a stitch is left behind: everything is right on the path one thinks of, and wrong on the other.`,
  triggers: '',
  silent: '',
  words: ({ thing, allowed, by, ways, because, source, related, mends }) => ({
    message: `${ways.map((way) => sentence(`${whenHead(way.when)}"${thing}" is still ${plain(way.state)} ${by}.`)).join(' ')} It has to be ${listWords(allowed.map(plain))} by then.`,
    label: `still ${statesWords(ways)} ${by}`,
    why: because,
    source,
    related,
    mends,
  }),
});
