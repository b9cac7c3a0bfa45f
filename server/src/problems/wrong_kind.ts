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
  page: `A thing stands where another kind of thing belongs: an instrument where a material is worked on, a place where a tool is held. Two names may have been swapped.

What the action, the property or the list takes is in its declaration; the message names it.`,
  triggers: `
// quiet: missing_head
action irrigate (place p) with (material m)

protocol clean "Clean a socket" {
  given { socket : place }
  materials { saline : material }
  visit surgery "Surgery" {
    irrigate saline with socket
    //       ^^^^^^ wrong_kind
    //                   ^^^^^^ wrong_kind
  }
}
`,
  silent: `
// quiet: missing_head
action irrigate (place p) with (material m)

protocol clean "Clean a socket" {
  given { socket : place }
  materials { saline : material }
  visit surgery "Surgery" {
    irrigate socket with saline
  }
}
`,
  words: ({ thing, is, wanted, asked }) => ({
    message: `"${thing}" is ${article(is)}; ${asked} takes ${article(wanted)}.`,
    label: is,
  }),
});
