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
  page: `A limit does not say what it rests on. Name a declared source, or \`common_practice\` where there is no published one, so that whoever is stopped by the limit can look it up.`,
  triggers: '',
  silent: '',
  words: ({ limit, file, statement }) => ({
    message: `Nothing says on what ${limit} rests.`,
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
