import { problemKind } from './problem.ts';

interface Data {
  readonly path: string;
  readonly itself: boolean;
}

export const useCycle = problemKind<Data>({
  code: 'use_cycle',
  severity: 'warning',
  title: 'Files use each other',
  page: `A file uses another that, directly or through others, uses it back; or it uses itself. Names are still found, but none of these files can be read, reviewed or moved without the others.

Move what they all need into a file of its own, and let them use that.`,
  triggers: `
// quiet: unused_use
//- shared/places.curette
use places
//  ^^^^^^ use_cycle
use pauses
//  ^^^^^^ use_cycle

//- shared/pauses.curette
use places
//  ^^^^^^ use_cycle
`,
  silent: `
// quiet: unused_use
//- shared/places.curette
use pauses

//- shared/pauses.curette
`,
  words: ({ path, itself }) => ({
    message: itself
      ? `This file uses itself ("${path}").`
      : `"${path}" leads back to this file: neither can be read without the other.`,
    label: itself ? 'this very file' : 'leads back here',
  }),
});
