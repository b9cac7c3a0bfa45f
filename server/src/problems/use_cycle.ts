import { problemKind } from './problem.ts';

interface Data {
  readonly path: string;
  readonly itself: boolean;
}

export const useCycle = problemKind<Data>({
  code: 'use_cycle',
  severity: 'warning',
  title: 'Files use each other',
  page: `A file uses another that, directly or through others, uses it back; or it uses itself. Names are still found, but neither file can be read, reviewed or moved without the other. Move what both need into a third.`,
  triggers: '',
  silent: '',
  words: ({ path, itself }) => ({
    message: itself
      ? `This file uses itself ("${path}").`
      : `"${path}" leads back to this file: the two use each other.`,
    label: itself ? 'this very file' : 'leads back here',
  }),
});
