import type { Statement } from '@curette/grammar';
import { type FileId, problemKind } from './problem.ts';

interface Data {
  /** what the limit bounds, in words */
  readonly limit: string;
  readonly file: FileId;
  readonly statement: Statement;
}

export const limitWithoutSource = problemKind<Data>({
  code: 'limit_without_source',
  severity: 'advice',
  title: 'Limit without a source',
  page: `A limit does not say what it rests on. Whoever is stopped by it cannot look it up, and whoever wants to change it does not know what they would be going against.

Name a declared source (\`source handbook\`), or \`source common_practice\` where there is no published one. Saying that there is none is honest, and it is enough.`,
  triggers: `
kind cement "bone cement" is material {
  states mixed -> set
  mixed  lasts at most 4 min, then set
// <^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ limit_without_source
}
`,
  silent: `
kind cement "bone cement" is material {
  states mixed -> set
  mixed  lasts at most 4 min, then set source common_practice
}
`,
  words: ({ limit, file, statement }) => ({
    message: `Nothing says what this limit rests on: ${limit}.`,
    label: 'no source',
    mends: [
      {
        title: 'Add "source common_practice"',
        edits: [
          {
            type: 'replace',
            place: { file, statement: statement.id, span: { start: statement.head.end, end: statement.head.end } },
            text: ' source common_practice',
          },
        ],
      },
    ],
  }),
});
