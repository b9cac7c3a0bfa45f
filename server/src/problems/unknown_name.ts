import { type FileId, type Place, problemKind } from './problem.ts';
import { meantOrElsewhere } from './words.ts';

interface Data {
  readonly name: string;
  /** what was looked for, in plain words: "instrument", "finding" */
  readonly wanted: string;
  readonly candidates: Iterable<string>;
  /** a library file that declares it */
  readonly library: FileId | undefined;
  readonly place: Place;
}

export const unknownName = problemKind<Data>({
  code: 'unknown_name',
  severity: 'error',
  title: 'Unknown name',
  page: `A name is written that nothing here declares: not the protocol's given things, materials and instruments, not this file, not the files it uses.

Correct the spelling, list the thing at the head of the protocol, or add the \`use\` of the file that declares it.`,
  triggers: `
// quiet: missing_head
action irrigate (place p)

protocol clean "Clean a socket" {
  given { socket : place }
  visit surgery "Surgery" {
    irrigate sockets
    //       ^^^^^^^ unknown_name
    pause count_in
    //    ^^^^^^^^ unknown_name
  }
}
`,
  silent: `
// quiet: missing_head
action irrigate (place p)

pause count_in "Opening count" {
  takes 1..2 min
}

protocol clean "Clean a socket" {
  given { socket : place }
  visit surgery "Surgery" {
    irrigate socket
    pause count_in
  }
}
`,
  words: ({ name, wanted, candidates, library, place }) => {
    const { sentence, mends } = meantOrElsewhere(name, candidates, library, place);
    return { message: `There is no ${wanted} called "${name}" here.${sentence}`, label: 'not known', mends };
  },
});
