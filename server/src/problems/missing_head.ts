import { type FileId, problemKind } from './problem.ts';
import { listWords } from './words.ts';

interface Data {
  readonly missing: readonly string[];
  readonly file: FileId;
  readonly statement: number;
  /** the first line inside the protocol */
  readonly first: number | undefined;
}

const TEMPLATES: Readonly<Record<string, string>> = { version: 'version 0.1.0', status: 'status draft' };

export const missingHead = problemKind<Data>({
  code: 'missing_head',
  severity: 'warning',
  title: 'Protocol not complete',
  page: `A protocol states its version, its status and its owner, so that a printed copy can be told from a newer one, a draft from an approved text, and so that somebody can be asked. And it has at least one visit, or there is nothing to do.

Add what is missing at the head of the protocol: \`version 0.1.0\`, \`status draft\`, and an owner: a unit or an office, rather than a person who may leave.`,
  triggers: `
protocol recall "Recall visit" {
//       ^^^^^^ missing_head
  owner "Periodontology, Vellamoor Teaching Hospital"
  visit recall "Recall" {
    note "Probe all round"
  }
}
`,
  silent: `
protocol recall "Recall visit" {
  version 1.0.0
  status  draft
  owner   "Periodontology, Vellamoor Teaching Hospital"
  visit recall "Recall" {
    note "Probe all round"
  }
}
`,
  words: ({ missing, file, statement, first }) => {
    const lines = missing.flatMap((word) => TEMPLATES[word] ?? []);
    const none = missing.map((word) => `no ${word}`);
    return {
      message: `The protocol has ${listWords(none, 'and')}.`,
      label: listWords(none, 'and'),
      mends:
        lines.length > 0
          ? [
              {
                title: `Add ${listWords(
                  lines.map((line) => `"${line}"`),
                  'and',
                )}`,
                edits: [
                  first === undefined
                    ? { type: 'append', file, statement, lines }
                    : { type: 'insert', where: 'before', file, statement: first, lines },
                ],
              },
            ]
          : [],
    };
  },
});
