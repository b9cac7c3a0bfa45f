import type { Finding } from '../analysis/model.ts';
import { type FileId, problemKind } from './problem.ts';
import { listWords } from './words.ts';

interface Data {
  readonly label: string;
  /** combinations without an option; a value undefined is any */
  readonly missing: readonly (readonly { readonly finding: Finding; readonly value: string | undefined }[])[];
  readonly cutShort: boolean;
  readonly file: FileId;
  readonly statement: number;
}

export const optionMissing = problemKind<Data>({
  code: 'option_missing',
  severity: 'error',
  title: 'Finding without an option',
  page: `A decision has to say what to do whatever is found. A finding, or a combination of findings, without an option leaves the operator alone with it, and usually it is the rare and awkward one.

Add an option for what the message names, or \`otherwise { … }\` for all that is left. Where nothing is to be done say so with an empty option: \`option intact { }\`.`,
  triggers: `
// quiet: missing_head
finding buccal_wall "Buccal wall" { intact "Intact", windowed "Windowed", lost "Lost" }

protocol graft_socket "Graft a socket" {
  visit surgery "Surgery" {
    decide buccal_wall "Probe the wall" {
    //     ^^^^^^^^^^^ option_missing
      option intact { }
      option lost { note "Plan a flap and a barrier membrane" }
    }
  }
}
`,
  silent: `
// quiet: missing_head
finding buccal_wall "Buccal wall" { intact "Intact", windowed "Windowed", lost "Lost" }

protocol graft_socket "Graft a socket" {
  visit surgery "Surgery" {
    decide buccal_wall "Probe the wall" {
      option intact or windowed { }
      option lost { note "Plan a flap and a barrier membrane" }
    }
  }
}
`,
  words: ({ label, missing, cutShort, file, statement }) => ({
    message:
      missing.length === 0
        ? `There are too many combinations to look through for "${label}"; some may have no option.`
        : `Nothing says what to do when ${listWords(missing.map(combination))}${missing.length >= 8 ? ', among others' : ''}.`,
    label: missing.length > 0 ? `no option: ${missing.slice(0, 2).map(short).join('; ')}` : 'too many to look through',
    related: [],
    mends: [
      ...(missing.length > 0
        ? [
            {
              title: missing.length === 1 ? 'Add the missing option' : 'Add the missing options',
              edits: [
                {
                  type: 'append' as const,
                  file,
                  statement,
                  lines: missing.map((row) => `option ${row.map(({ value }) => value ?? 'any').join(', ')} { }`),
                },
              ],
            },
          ]
        : []),
      ...(cutShort || missing.length > 1
        ? [
            {
              title: 'Add "otherwise"',
              edits: [{ type: 'append' as const, file, statement, lines: ['otherwise { }'] }],
            },
          ]
        : []),
    ],
  }),
});

function combination(row: Data['missing'][number]): string {
  return listWords(
    row.flatMap(({ finding, value }) =>
      value === undefined
        ? []
        : [`${finding.label.toLowerCase()} is ${(finding.values.get(value) ?? value).toLowerCase()}`],
    ),
    'and',
  );
}

function short(row: Data['missing'][number]): string {
  return row
    .map(({ finding, value }) => (value === undefined ? 'any' : (finding.values.get(value) ?? value).toLowerCase()))
    .join(', ');
}
