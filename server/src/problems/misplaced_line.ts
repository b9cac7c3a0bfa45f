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
  page: `A line of the language stands where it means nothing: a step outside a visit, a visit outside a protocol, a state outside a kind. It was read for what it is, but not checked as part of what it stands in.`,
  triggers: '',
  silent: '',
  words: ({ expected }) => ({
    message: expected ? `This line belongs ${expected}.` : 'This line belongs elsewhere.',
    label: expected ? `belongs ${expected}` : 'belongs elsewhere',
  }),
});
