import { formatQuantity, type Quantity } from '@curette/shared';
import { type Place, problemKind } from './problem.ts';

interface Data {
  readonly usual: Quantity;
  /** from the end of what it may take to the end of what it usually takes */
  readonly rest: Place | undefined;
}

export const usualAsRange = problemKind<Data>({
  code: 'usual_as_range',
  severity: 'error',
  title: 'Usual time is one time',
  page: `What something *may* take is a range, and what it *usually* takes is one time within it: \`takes 10..40 min usually 20 min\`. The range is what limits are checked against; the usual time is what a day is planned with.

Write the time it takes most often, or leave \`usually\` out.`,
  triggers: `
// quiet: missing_head
action extract (place p) {
  takes 10..40 min usually 15..20 min
  //                       ^^^^^^^^^^ usual_as_range
}
`,
  silent: `
// quiet: missing_head
action extract (place p) {
  takes 10..40 min usually 20 min
}
`,
  words: ({ usual, rest }) => ({
    message: `What it usually takes is one time; ${formatQuantity(usual)} is a range.`,
    label: 'one time belongs here',
    mends: rest ? [{ title: 'Leave out the usual time', edits: [{ type: 'replace', place: rest, text: '' }] }] : [],
  }),
});
