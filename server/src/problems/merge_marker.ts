import { type Place, problemKind } from './problem.ts';

interface Data {
  readonly expected: string | undefined;
  readonly place: Place;
}

export const mergeMarker = problemKind<Data>({
  code: 'merge_marker',
  severity: 'error',
  title: 'Two versions left side by side',
  page: `A line left by joining two versions of the file in git. Both versions of the lines between the marks stand in the file, so nobody can tell which one holds. Keep one and remove the marks.`,
  triggers: '',
  silent: '',
  words: () => ({
    message:
      'Two versions of these lines stand in the file since it was merged. Keep one of them and remove the marks.',
    label: 'mark left by a merge',
  }),
});
