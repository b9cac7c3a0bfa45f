import { type Place, problemKind } from './problem.ts';
import { listWords, plain } from './words.ts';

interface Data {
  readonly thing: string;
  readonly state: string;
  /** the step, as its line says it */
  readonly step: string;
  readonly began: string | undefined;
  readonly beganPlace: Place | undefined;
  readonly when: string;
  readonly limit: string;
  /** steps between whose length nothing states */
  readonly steps: readonly { readonly label: string; readonly place: Place }[];
  readonly reason: 'not stated' | 'side by side' | 'other visit' | 'endless wait';
}

export const timeNotStated = problemKind<Data>({
  code: 'time_not_stated',
  severity: 'advice',
  title: 'Time cannot be told',
  page: `A step depends on how long a thing has been in a state, and that cannot be worked out: a step between does not say how long it takes, the two stand in lanes side by side, or nothing says how long the wait is between the two visits they stand in. It is not taken for granted.

Say how long the steps take (\`takes 5..10 min\`), from your own experience if there is nothing better, or wait for the state (\`wait until granules is wetted for 10 min\`).`,
  triggers: `
// quiet: missing_head
kind graft "bone graft" is material {
  states dry -> wetted -> packed
}
action wet (graft g) {
  makes g wetted
  takes 1 min
}
action extract (place p)
action pack (graft g) into (place p) {
  needs g wetted for 10..60 min because "Too late it has dried out" source common_practice
  makes g packed
  takes 5 min
}

protocol socket_graft "Graft a socket" {
  given { site : place }
  materials { granules : graft }
  visit surgery "Surgery" {
    wet granules
    wait 10 min
    extract site
    pack granules into site
    //   ^^^^^^^^ time_not_stated
  }
}
`,
  silent: `
// quiet: missing_head
kind graft "bone graft" is material {
  states dry -> wetted -> packed
}
action wet (graft g) {
  makes g wetted
  takes 1 min
}
action extract (place p)
action pack (graft g) into (place p) {
  needs g wetted for 10..60 min because "Too late it has dried out" source common_practice
  makes g packed
  takes 5 min
}

protocol socket_graft "Graft a socket" {
  given { site : place }
  materials { granules : graft }
  visit surgery "Surgery" {
    wet granules
    wait 10 min
    extract site takes 10..40 min
    pack granules into site
  }
}
`,
  words: ({ thing, state, step, began, beganPlace, limit, steps, reason }) => ({
    // Between visits only a wait tells the time, and it is easily written: its absence is an oversight.
    severity: reason === 'other visit' || reason === 'endless wait' ? 'warning' : 'advice',
    message: `How long "${thing}" has been ${plain(state)}${began ? ` since "${began}"` : ''} when "${step}" begins cannot be told (${limit} is asked for): ${
      reason === 'not stated'
        ? `nothing says how long ${
            listWords(
              steps.map((step) => `"${step.label}"`),
              'and',
            ) || 'the work between'
          } takes`
        : reason === 'side by side'
          ? 'the two stand in lanes that run side by side'
          : reason === 'endless wait'
            ? 'nothing says how long the wait between the visits may be at most'
            : 'nothing says how long to wait between the visits they stand in'
    }.`,
    label: 'time cannot be told',
    related: [
      ...(beganPlace ? [{ place: beganPlace, message: `${plain(state)} from here on` }] : []),
      ...steps.map((step) => ({ place: step.place, message: 'takes an unknown time' })),
    ],
  }),
});
