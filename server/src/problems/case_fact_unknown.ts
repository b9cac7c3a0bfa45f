import { type FileId, type Mend, type Place, problemKind } from './problem.ts';
import { listWords, meant, plain } from './words.ts';

interface Data {
  readonly name: string;
  /** the protocol, as it is called */
  readonly protocol: string;
  /** what the name is to the protocol, if it is anything */
  readonly is: 'materials' | 'instruments' | 'place' | 'given' | 'finding' | 'relation' | undefined;
  /** what a case may speak of */
  readonly given: readonly string[];
  readonly findings: readonly string[];
  readonly place: Place;
  readonly file: FileId;
  readonly statement: number;
}

export const caseFactUnknown = problemKind<Data>({
  code: 'case_fact_unknown',
  severity: 'error',
  title: 'Not asked for by the protocol',
  page: `A case fills in what its protocol leaves open: the things under \`given\`, and the findings that its decisions ask for. This line speaks of something else, so it would change nothing, and whoever wrote it would believe that it had been taken into account.

Correct the name; or, if the fact matters, let the protocol ask for it: list the thing under \`given\`, or write a \`decide\` over the finding.`,
  triggers: `
// quiet: missing_head
finding bleeding "Bleeding" { stopped, brisk }

protocol close "Close a small wound" {
  given { patient : patient }
  visit closing "Closing" {
    note "Look"
  }
}

case first of close {
  bleeding brisk
// <^^^^^^ case_fact_unknown
}
`,
  silent: `
// quiet: missing_head
finding bleeding "Bleeding" { stopped, brisk }

protocol close "Close a small wound" {
  given { patient : patient }
  visit closing "Closing" {
    decide bleeding "Look" {
      option stopped { }
      option brisk { note "Press" }
    }
  }
}

case first of close {
  bleeding brisk
}
`,
  words: ({ name, protocol, is, given, findings, place, file, statement }) => {
    const { sentence, mends } = is === undefined ? meant(name, [...given, ...findings], place) : NOBODY;
    const leave: Mend = { title: 'Leave the line out', edits: [{ type: 'remove', file, statement }] };
    return {
      message: `${whatWords(name, protocol, is)}${sentence}${sentence === '' ? asksWords(given, findings) : ''}`,
      label: 'changes nothing',
      mends: is === 'relation' ? [] : [...mends, leave],
    };
  },
});

const NOBODY = { sentence: '', mends: [] };

function whatWords(name: string, protocol: string, is: Data['is']): string {
  switch (is) {
    case 'finding':
      return `No decision of "${protocol}" asks for ${plain(name)}.`;
    case 'materials':
    case 'instruments':
      return `"${plain(name)}" is among the ${is} of "${protocol}"; a case says only what is given.`;
    case 'relation':
      return `"${protocol}" is given no patient of whom this could be said.`;
    case 'place':
    case 'given':
    case undefined:
      return `"${protocol}" is given nothing called "${name}", and no decision of it asks for that.`;
    default:
      return is satisfies never;
  }
}

function asksWords(given: readonly string[], findings: readonly string[]): string {
  const asked = [...given, ...findings].map(plain);
  return asked.length === 0 ? '' : ` A case of it can speak of ${listWords(asked, 'and')}.`;
}
