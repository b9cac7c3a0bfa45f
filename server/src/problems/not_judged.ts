import { problemKind } from './problem.ts';

interface Data {
  /** what is read but not judged, in words */
  readonly what: string;
}

export const notJudged = problemKind<Data>({
  code: 'not_judged',
  severity: 'advice',
  title: 'Read, not judged yet',
  page: `The language can say this, and the text is read and kept, but this version of the checker does not judge it. It says so rather than let it pass for checked. Look at it yourself.`,
  triggers: '',
  silent: '',
  words: ({ what }) => ({ message: `Read but not judged yet: ${what}.`, label: 'not judged yet' }),
});
