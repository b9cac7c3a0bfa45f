import type { Identifier } from '../analysis/cases/identifiers.ts';
import { type Place, problemKind } from './problem.ts';

interface Data {
  readonly what: Identifier;
  /** it can hardly be anything else */
  readonly sure: boolean;
  readonly mend: { readonly place: Place; readonly text: string } | undefined;
}

export const looksLikeIdentifier = problemKind<Data>({
  code: 'looks_like_identifier',
  severity: 'error',
  title: 'Could lead to a person',
  page: `A case is shared, printed and kept with all its earlier versions: what has once been written into it is not easily taken back. So it carries nothing by which somebody could be known again. This text looks like a name, a day of birth, the number of a record or an insurance, a telephone number or an address.

* *A name*: call the case by what it shows, not by whom.
* *A day*: only \`start\` holds one, the day of the first visit, which is needed for the calendar. Of an age, write what matters for the technique.
* *A number*: what links a case to a record is kept where the records are.

The checker judges by form, and cannot know every name: a text that it passes is not thereby free of them. Two words with capital letters are a warning, since they may be no name at all; write them small, and it is silent.`,
  triggers: `
// quiet: missing_head
protocol recall "Look again" {
  visit look "Look at the wound" {
    note "Written down"
  }
}

case first "Mrs Weber, seen twice" of recall {
  //        ^^^^^^^^^ looks_like_identifier
  start 2027-03-01
}
`,
  silent: `
// quiet: missing_head
protocol recall "Look again" {
  visit look "Look at the wound" {
    note "Written down"
  }
}

case first "Slow healing, seen twice" of recall {
  start 2027-03-01
}
`,
  words: ({ what, sure, mend }) => ({
    message: `This looks like ${LOOKS[what]}. A case is shared and kept, so it carries nothing that leads to a person. ${INSTEAD[what]}`,
    label: 'could lead to a person',
    severity: sure ? 'error' : 'warning',
    mends: mend
      ? [
          {
            title: mend.text === '' ? 'Take it out' : `Call the case "${mend.text}"`,
            edits: [{ type: 'replace', place: mend.place, text: mend.text }],
          },
        ]
      : [],
  }),
});

const LOOKS: Readonly<Record<Identifier, string>> = {
  name: "somebody's name",
  date: 'the day of a birth, or of something else in a life',
  number: 'the number of a record or an insurance',
  telephone: 'a telephone number',
  'e-mail': 'an e-mail address',
};

const INSTEAD: Readonly<Record<Identifier, string>> = {
  name: 'Call the case by what it shows.',
  date: 'Only "start" holds a day, that of the first visit; of an age, write what matters for the technique.',
  number: 'What links it to a record is kept where the records are.',
  telephone: 'What links it to a record is kept where the records are.',
  'e-mail': 'What links it to a record is kept where the records are.',
};
