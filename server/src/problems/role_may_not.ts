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
  page: `An action says who may do it, and the step gives it to somebody else.`,
  triggers: '',
  silent: '',
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
