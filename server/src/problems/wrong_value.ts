import { problemKind } from './problem.ts';
import { plain } from './words.ts';

interface Data {
  readonly property: string;
  /** what belongs here, in plain words */
  readonly wanted: string;
}

export const wrongValue = problemKind<Data>({
  code: 'wrong_value',
  severity: 'error',
  title: 'Value of another sort',
  page: `A property is given a value of another sort than its kind declares: a name where a quantity belongs, a text where yes or no belongs.`,
  triggers: '',
  silent: '',
  words: ({ property, wanted }) => ({
    message: `"${plain(property)}" wants ${wanted}.`,
    label: `${wanted} belongs here`,
  }),
});
