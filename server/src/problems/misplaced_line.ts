import { type Place, problemKind } from './problem.ts';

interface Data {
  /** where it belongs, in plain words */
  readonly expected: string | undefined;
  readonly place: Place;
}

export const misplacedLine = problemKind<Data>({
  code: 'misplaced_line',
  severity: 'error',
  title: 'Line in the wrong place',
  page: `A line stands where it means nothing: a visit outside a protocol, an option outside a decision, an item outside a pause. It was read for what it is, but not checked as part of what it stands in.

Move it to where it belongs; the message says where that is. Often a brace above it closes a block too early.`,
  triggers: `
// quiet: missing_head
visit recall "Recall" {
// <^ misplaced_line
  note "Probe all round"
}

protocol recall "Recall visit" {
  visit recall "Recall" {
    option deep { note "Probe again" }
//  ^^^^^^ misplaced_line
  }
}

  item "Consent signed"
// <^^ misplaced_line
`,
  silent: `
// quiet: missing_head
finding pocket "Pocket" { shallow, deep }

protocol recall "Recall visit" {
  visit recall "Recall" {
    decide pocket "Probe all round" {
      option shallow { }
      option deep { note "Probe again" }
    }
  }
}
`,
  words: ({ expected }) => ({
    message: expected ? `This line belongs ${expected}.` : 'This line belongs elsewhere.',
    label: expected ? `belongs ${expected}` : 'belongs elsewhere',
  }),
});
