import { problemKind } from './problem.ts';

interface Data {
  readonly path: string;
}

export const useOutside = problemKind<Data>({
  code: 'use_outside',
  severity: 'error',
  title: 'Outside the workspace',
  page: `A \`use\` leads out of the workspace (or of the library). A protocol depends on nothing that is not kept and reviewed with it, so such a file is not read.`,
  triggers: '',
  silent: '',
  words: ({ path }) => ({
    message: `"${path}" lies outside the workspace and is not read.`,
    label: 'outside the workspace',
  }),
});
