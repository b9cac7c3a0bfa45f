import { type FileId, type Place, problemKind } from './problem.ts';
import { meantOrElsewhere, plain } from './words.ts';

interface Data {
  readonly verb: string;
  readonly candidates: Iterable<string>;
  /** a library file that declares it */
  readonly library: FileId | undefined;
  readonly place: Place;
}

export const unknownAction = problemKind<Data>({
  code: 'unknown_action',
  severity: 'error',
  title: 'Unknown action',
  page: `A step begins with a verb that no action or procedure of this file, of the files it uses or of the library's core has. What the step does is not known, so nothing after it that depends on it can be trusted.

Correct the spelling, add the \`use\` of the file that declares it, or declare the action: what it needs, what it makes, how long it takes.`,
  triggers: `
// quiet: missing_head
action irrigate (place p)

protocol clean "Clean a socket" {
  given { socket : place }
  visit surgery "Surgery" {
    irigate socket
//  ^^^^^^^ unknown_action
    extract socket
//  ^^^^^^^ unknown_action
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
  }
}
`,
  words: ({ verb, candidates, library, place }) => {
    const { sentence, mends } = meantOrElsewhere(verb, candidates, library, place);
    return { message: `No action is called "${plain(verb)}" here.${sentence}`, label: 'not known', mends };
  },
});
