import { type FileId, type Place, problemKind } from './problem.ts';
import { plain } from './words.ts';

interface Data {
  readonly verb: string;
  readonly first: Place;
  readonly file: FileId;
  readonly statement: number;
}

export const repeatedStep = problemKind<Data>({
  code: 'repeated_step',
  severity: 'advice',
  title: 'Same step twice',
  page: `The same line stands twice in a row, word for word.

If it is to be done twice, \`repeat\` says so, or the second line says what is different about it. Otherwise one of them was pasted by mistake; remove it.`,
  triggers: `
// quiet: missing_head
action irrigate (place p)

protocol clean "Clean a socket" {
  given { socket : place }
  visit surgery "Surgery" {
    irrigate socket
    irrigate socket
//  ^^^^^^^^^^^^^^^ repeated_step
  }
}
`,
  silent: `
// quiet: missing_head
action irrigate (place p)

protocol clean "Clean a socket" {
  given { socket : place }
  visit surgery "Surgery" {
    irrigate socket
    note "Look for loose fragments"
    irrigate socket
  }
}
`,
  words: ({ verb, first, file, statement }) => ({
    message: `"${plain(verb)}" stands here twice in a row, word for word.`,
    label: 'the same as above',
    related: [{ place: first, message: 'the first' }],
    mends: [{ title: 'Remove the second', edits: [{ type: 'remove', file, statement }] }],
  }),
});
