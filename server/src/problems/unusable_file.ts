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
  page: `The file is not text (UTF-8), is too large, could not be opened, or is a link that leads out of the workspace. Nothing in it was checked, and names from it are not known.`,
  triggers: '',
  silent: '',
  words: ({ path, trouble }) => ({
    message: `"${path}" was not checked: ${REASONS[trouble]}.`,
    label: REASONS[trouble],
  }),
});
