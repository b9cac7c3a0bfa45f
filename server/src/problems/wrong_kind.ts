import { problemKind } from './problem.ts';
import { article } from './words.ts';

interface Data {
  readonly thing: string;
  /** what it is */
  readonly is: string;
  /** what belongs there */
  readonly wanted: string;
  /** where it was put: `"lay … on"`, "the list of instruments" */
  readonly asked: string;
}

export const wrongKind = problemKind<Data>({
  code: 'wrong_kind',
  severity: 'error',
  title: 'Not that kind of thing',
  page: `A thing stands where another kind of thing belongs: an instrument where a material is worked on, a place where a tool is held. What the action, the property or the list takes is in its declaration.`,
  triggers: '',
  silent: '',
  words: ({ thing, is, wanted, asked }) => ({
    message: `"${thing}" is ${article(is)}; ${asked} takes ${article(wanted)}.`,
    label: is,
  }),
});
