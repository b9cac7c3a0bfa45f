import type { Way } from '../analysis/protocol/word-findings.ts';
import { type Mend, problemKind, type Related, type SourceNote } from './problem.ts';
import { plain, sentence, whenHead } from './words.ts';

interface Data {
  readonly thing: string;
  /** the state the step needs */
  readonly needed: string;
  readonly verb: string;
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
  words: ({ thing, needed, verb, ways, always, because, source, related, mends }) => ({
    message: `${ways.map((way) => wayWords(thing, way, always)).join(' ')} To ${plain(verb)} it, it has to be ${plain(needed)}.`,
    label: `${[...new Set(ways.map((way) => plain(way.state)))].join(' or ')}, not ${plain(needed)}`,
    why: because,
    source,
    related,
    mends,
  }),
});

/** "When the wall is lost, the pack is still in place since place pack." */
export function wayWords(thing: string, way: Way, always: boolean): string {
  const since = way.since ? ` since "${way.since}"` : '';
  const head = whenHead(way.when);
  const body = `"${thing}" is ${way.since ? '' : 'still '}${plain(way.state)}${since}`;
  return `${sentence(head)}${body}${always || head !== '' ? '' : ' on some path'}.`;
}
