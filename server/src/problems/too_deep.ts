import { type Place, problemKind } from './problem.ts';

interface Data {
  readonly expected: string | undefined;
  readonly place: Place;
}

export const tooDeep = problemKind<Data>({
  code: 'too_deep',
  severity: 'error',
  title: 'Nested too deep',
  page: `Blocks or brackets stand inside one another more often than anyone can follow. What is inside from here on was not read. Break the work into procedures.`,
  triggers: '',
  silent: '',
  words: () => ({
    message: 'Blocks or brackets are nested too deep here; what is inside was not read.',
    label: 'not read from here',
  }),
});
