import { problemKind } from './problem.ts';

interface Data {
  readonly path: string;
}

export const useOutside = problemKind<Data>({
  code: 'use_outside',
  severity: 'error',
  title: 'Outside the workspace',
  page: `A \`use\` leads out of the workspace, or out of the library. A protocol depends on nothing that is not kept and reviewed with it, so such a file is not read.

Copy what is needed into the workspace, where changes to it are seen.`,
  triggers: `
//- protocols/recall.curette
use ../../elsewhere/house_rules
//  ^^^^^^^^^^^^^^^^^^^^^^^^^^^ use_outside
`,
  silent: `
// quiet: unused_use
//- protocols/recall.curette
use ../shared/house_rules

//- shared/house_rules.curette
`,
  words: ({ path }) => ({
    message: `"${path}" lies outside the workspace and is not read.`,
    label: 'outside the workspace',
  }),
});
