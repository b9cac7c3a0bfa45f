import { type Place, problemKind } from './problem.ts';
import { meant } from './words.ts';

interface Data {
  readonly path: string;
  /** it was looked for in the shipped library */
  readonly library: boolean;
  readonly known: readonly string[];
  readonly place: Place;
}

export const missingFile = problemKind<Data>({
  code: 'missing_file',
  severity: 'error',
  title: 'File not found',
  page: `A \`use\` names a file that is not there. Paths beginning with \`std/\` are the shipped library; others count from the folder of the file they stand in, without the ending \`.curette\`.`,
  triggers: '',
  silent: '',
  words: ({ path, library, known, place }) => {
    const { sentence, mends } = meant(path, known, place);
    return {
      message: `There is no file "${path}"${library ? ' in the library' : ' beside this one'}.${sentence}`,
      label: 'not found',
      mends,
    };
  },
});
