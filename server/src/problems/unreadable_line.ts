import { type Place, problemKind } from './problem.ts';

interface Data {
  /** what would fit, in plain words */
  readonly expected: string | undefined;
  readonly place: Place;
}

export const unreadableLine = problemKind<Data>({
  code: 'unreadable_line',
  severity: 'error',
  title: 'Line not understood',
  page: `Part of a line fits no form of the language. Everything around it is still checked.

While you type this is normal: it goes away when the line is complete. If it stays, the message says what belongs here.`,
  triggers: `
// quiet: missing_head
action irrigate (place p)

protocol clean "Clean a socket" {
  given { socket : place }
  visit surgery "Surgery" {
    irrigate socket takes
    //                   | unreadable_line
    irrigate socket
  }
}
`,
  silent: `
// quiet: missing_head
action irrigate (place p)

protocol clean "Clean a socket" {
  given { socket : place }
  visit surgery "Surgery" {
    irrigate socket takes 1..2 min
    irrigate socket
  }
}
`,
  words: ({ expected }) => ({
    message: expected ? `Here belongs ${expected}.` : 'This line fits no form of the language.',
    label: expected ? `here belongs ${expected}` : 'not understood',
  }),
});
