import { formatQuantity, formatSource, type Quantity } from '@curette/shared';
import { type Mend, type Place, problemKind } from './problem.ts';

interface Data {
  /** what is done: an action's or a pause's label */
  readonly what: string;
  readonly here: Quantity;
  /** what the action or the pause takes */
  readonly stated: Quantity;
  readonly shorter: boolean;
  readonly place: Place;
  readonly declared: Place;
  readonly leaveOut: Mend;
}

export const timeOutsideAction = problemKind<Data>({
  code: 'time_outside_action',
  severity: 'warning',
  title: 'Time far from what it takes',
  page: `A step says how long it takes, and that is wholly shorter or wholly longer than what its action takes; so with a pause. Most often the unit is wrong. If not, the work is hurried, or somebody else's time stands here, and every limit that is checked against it is checked against the wrong time.

A step may say its own time where it lies within that of its action, or overlaps it. If the action's own time is wrong, mend it there.`,
  triggers: `
// quiet: missing_head
action paint "Paint" (place p) { takes 2..3 min }

protocol small "Small lesion" {
  given { site : place }
  visit surgery "Surgery" {
    paint site takes 30 s
    //               ^^^^ time_outside_action
  }
}
`,
  silent: `
// quiet: missing_head
action paint "Paint" (place p) { takes 2..3 min }

protocol small "Small lesion" {
  given { site : place }
  visit surgery "Surgery" {
    paint site takes 90 s..2 min
  }
}
`,
  words: ({ what, here, stated, shorter, place, declared, leaveOut }) => ({
    message: `This step takes ${formatQuantity(here)}, and "${what}" takes ${formatQuantity(stated)}: that is wholly ${shorter ? 'shorter' : 'longer'}.`,
    label: `takes ${formatQuantity(stated)}`,
    related: [{ place: declared, message: `what "${what}" takes` }],
    mends: [
      { title: `Change to "${formatSource(stated)}"`, edits: [{ type: 'replace', place, text: formatSource(stated) }] },
      leaveOut,
    ],
  }),
});
