import { type FileId, problemKind } from './problem.ts';

interface Data {
  readonly thing: string;
  readonly group: string;
  readonly file: FileId;
  readonly statement: number;
}

export const neverUsed = problemKind<Data>({
  code: 'never_used',
  severity: 'warning',
  title: 'Listed but not used',
  page: `A material or an instrument is listed, but no step uses it. Either a step is missing, or the list has one thing too many: it would be ordered, opened and counted for nothing.

Remove it from the list, or write the step that it was meant for.`,
  triggers: `
// quiet: missing_head
instrument spoon "Spoon curette"
instrument mirror "Mirror"
action debride (place p) with (instrument i)

protocol clean "Clean a socket" {
  given { socket : place }
  instruments { spoon, mirror }
  //                   ^^^^^^ never_used
  visit surgery "Surgery" {
    debride socket with spoon
  }
}
`,
  silent: `
// quiet: missing_head
instrument spoon "Spoon curette"
action debride (place p) with (instrument i)

protocol clean "Clean a socket" {
  given { socket : place }
  instruments { spoon }
  visit surgery "Surgery" {
    debride socket with spoon
  }
}
`,
  words: ({ thing, group, file, statement }) => ({
    message: `"${thing}" is on the list of ${group}, but no step uses it.`,
    label: 'no step uses it',
    mends: [{ title: `Remove "${thing}" from the ${group}`, edits: [{ type: 'remove', file, statement }] }],
  }),
});
