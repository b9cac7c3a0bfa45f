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

Finish the line, or compare it with the form in the language reference. While you type this is normal: it goes away when the line is complete.`,
  triggers: '',
  silent: '',
  words: ({ expected }) => ({
    message: expected ? `Here belongs ${expected}.` : 'This line fits no form of the language.',
    label: expected ? `here belongs ${expected}` : 'not understood',
  }),
});
