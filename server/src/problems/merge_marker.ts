import { type Place, problemKind } from './problem.ts';

interface Data {
  readonly expected: string | undefined;
  readonly place: Place;
}

export const mergeMarker = problemKind<Data>({
  code: 'merge_marker',
  severity: 'error',
  title: 'Two versions left side by side',
  page: `Two people changed the same lines, and git left both versions in the file with marks between them. As it stands both versions are part of the protocol, and nobody can tell which one holds.

Decide which version holds, keep that one, and remove the other together with the three marks.`,
  triggers: `
// quiet: missing_head
protocol recall "Recall visit" {
  visit recall "Recall" {
<<<<<<< ours
// <^^^^^^^^ merge_marker
    note "Probe with 0.2 N"
=======
// <^^^ merge_marker
    note "Probe with 0.25 N"
>>>>>>> theirs
// <^^^^^^^^^^ merge_marker
  }
}
`,
  silent: `
// quiet: missing_head
protocol recall "Recall visit" {
  visit recall "Recall" {
    note "Probe with 0.25 N"
  }
}
`,
  words: () => ({
    message:
      'Two versions of these lines stand in the file since it was merged. Keep one of them and remove the marks.',
    label: 'mark left by a merge',
  }),
});
