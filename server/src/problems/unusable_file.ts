import { problemKind } from './problem.ts';

interface Data {
  readonly path: string;
  readonly trouble: 'not text' | 'too large' | 'unreadable' | 'outside';
}

const REASONS: Readonly<Record<Data['trouble'], string>> = {
  'not text': 'it is not a text file',
  'too large': 'it is larger than a protocol can be',
  unreadable: 'it could not be read',
  outside: 'it is a link that leads out of the workspace',
};

export const unusableFile = problemKind<Data>({
  code: 'unusable_file',
  severity: 'error',
  title: 'File cannot be read',
  page: `The file is not text (UTF-8), is far larger than a protocol can be, or could not be opened. Nothing in it was checked, and no name from it is known anywhere.

Most often a word-processor file or a scan was given the ending \`.curette\`. Paste its words into a text file.`,
  triggers: `
//- protocols/recall.curette
use ../shared/scan
//  ^^^^^^^^^^^^^^ unusable_file

//- shared/scan.curette not text
// ^ unusable_file
`,
  silent: `
// quiet: unused_use
//- protocols/recall.curette
use ../shared/scan

//- shared/scan.curette
pause count_in "Opening count" {
  takes 1..2 min
}
`,
  words: ({ path, trouble }) => ({
    message: `"${path}" was not checked: ${REASONS[trouble]}.`,
    label: REASONS[trouble],
  }),
});
