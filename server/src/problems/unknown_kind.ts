import { type FileId, type Place, problemKind } from './problem.ts';
import { meantOrElsewhere, plain } from './words.ts';

interface Data {
  readonly name: string;
  readonly candidates: Iterable<string>;
  /** a library file that declares it */
  readonly library: FileId | undefined;
  readonly place: Place;
}

export const unknownKind = problemKind<Data>({
  code: 'unknown_kind',
  severity: 'error',
  title: 'Unknown kind',
  page: `A kind of thing is named that neither this file, nor a file it uses, nor the core of the library declares.

Correct the spelling, add the \`use\` of the file that declares it, or declare the kind.`,
  triggers: `
kind sheet "sheet" is materiel
//                    ^^^^^^^^ unknown_kind
`,
  silent: `
kind sheet "sheet" is material
`,
  words: ({ name, candidates, library, place }) => {
    const { sentence, mends } = meantOrElsewhere(name, candidates, library, place);
    return { message: `No kind of thing is called "${plain(name)}" here.${sentence}`, label: 'not known', mends };
  },
});
