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
  page: `A name is written that nothing here declares: not the protocol's given things, materials and instruments, not this file, not the files it uses. It may be misspelt, or the \`use\` of the file that declares it is missing.`,
  triggers: '',
  silent: '',
  words: ({ name, wanted, candidates, library, place }) => {
    const { sentence, mends } = meantOrElsewhere(name, candidates, library, place);
    return { message: `There is no ${wanted} called "${name}" here.${sentence}`, label: 'not known', mends };
  },
});
