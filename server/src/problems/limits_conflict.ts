import { formatQuantity } from '@curette/shared';
import { timeQuantity } from '../analysis/protocol/flow-words.ts';
import { type Place, problemKind } from './problem.ts';
import { listWords } from './words.ts';

interface Data {
  /** whatever happens; otherwise in some circumstances */
  readonly always: boolean;
  /** seconds by which the limits miss one another */
  readonly by: number;
  readonly limits: readonly {
    /** what is asked for: "granules" is to be wetted for at least 10 min when "pack granules" begins */
    readonly words: string;
    readonly short: string;
    readonly place: Place;
  }[];
}

export const limitsConflict = problemKind<Data>({
  code: 'limits_conflict',
  severity: 'error',
  title: 'Limits that exclude one another',
  page: `The team may choose how long it waits, and each limit after the wait could be kept by choosing well; but what is right for one is wrong for another. One thing needs a long wait and another a short one.

* An error: they exclude one another whatever the work in between takes.
* A warning: they do so for some durations of the work.

Change the order of work: begin what needs longer before the wait, and what spoils sooner after it.`,
  triggers: `
// quiet: missing_head
kind graft "bone graft" is material {
  states dry -> wetted -> packed
}
kind cement "cement" is material {
  states unmixed -> mixed -> placed
  mixed  lasts at most 4 min, then set source common_practice
}
action wet (graft g) {
  makes g wetted
  takes 1 min
}
action pack (graft g) {
  needs g wetted for 10 min because "Too soon it floats out" source common_practice
  makes g packed
  takes 5 min
}
action mix (cement c) {
  makes c mixed
  takes 1 min
}
action place (cement c) {
  needs c mixed because "Set, it no longer sticks" source common_practice
  makes c placed
  takes 1 min
}

protocol two_clocks "Two clocks and one wait" {
  materials { granules : graft, paste : cement }
  visit surgery "Surgery" {
    wet granules
    mix paste
    wait 1..20 min
//  ^^^^^^^^^^^^^^ limits_conflict: miss one another by 4 min
    place paste
    pack granules
  }
}
`,
  silent: `
// quiet: missing_head
kind graft "bone graft" is material {
  states dry -> wetted -> packed
}
kind cement "cement" is material {
  states unmixed -> mixed -> placed
  mixed  lasts at most 4 min, then set source common_practice
}
action wet (graft g) {
  makes g wetted
  takes 1 min
}
action pack (graft g) {
  needs g wetted for 10 min because "Too soon it floats out" source common_practice
  makes g packed
  takes 5 min
}
action mix (cement c) {
  makes c mixed
  takes 1 min
}
action place (cement c) {
  needs c mixed because "Set, it no longer sticks" source common_practice
  makes c placed
  takes 1 min
}

protocol two_clocks "Two clocks and one wait" {
  materials { granules : graft, paste : cement }
  visit surgery "Surgery" {
    wet granules
    wait 1..20 min
    mix paste
    place paste
    pack granules
  }
}
`,
  words: ({ always, by, limits }) => ({
    severity: always ? 'error' : 'warning',
    message: `However long this wait is, ${always ? '' : 'it can happen that '}not all of what follows is kept: ${listWords(
      limits.map(({ words }) => words),
      'and',
    )}. The limits miss one another by ${formatQuantity(timeQuantity(by), { digits: 3 })}.`,
    label: 'too short for one, too long for another',
    related: limits.map(({ short, place }) => ({ place, message: short })),
  }),
});
