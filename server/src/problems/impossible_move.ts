import type { Way } from '../analysis/protocol/flow-words.ts';
import { type Mend, problemKind, type Related } from './problem.ts';
import { plain, statesWords, waysWords } from './words.ts';

interface Data {
  readonly thing: string;
  /** the state the step would bring it into */
  readonly to: string;
  /** the step, as its line says it */
  readonly step: string;
  readonly ways: readonly Way[];
  readonly always: boolean;
  readonly related: readonly Related[];
  readonly mends: readonly Mend[];
}

export const impossibleMove = problemKind<Data>({
  code: 'impossible_move',
  severity: 'error',
  title: 'Cannot be done now',
  page: `A step would bring a thing from the state it is in into one that cannot follow: something taken out that was never put in, closed that was never opened, used after it was thrown away.

Which state may follow which is in the \`states\` lines of its kind. Usually a step is missing before this one, or this one stands too early. If the technique really allows the move, it belongs into the kind's \`states\`.`,
  triggers: `
// quiet: missing_head
kind screw "healing screw" is material {
  states boxed -> in_place -> removed
}
action seat (screw s) {
  makes s in_place
}
action unscrew (screw s) {
  makes s removed
}

protocol uncover "Uncover an implant" {
  materials { cap : screw }
  visit uncovering "Uncovering" {
    unscrew cap
    //      ^^^ impossible_move
  }
}
`,
  silent: `
// quiet: missing_head
kind screw "healing screw" is material {
  states boxed -> in_place -> removed
}
action seat (screw s) {
  makes s in_place
}
action unscrew (screw s) {
  makes s removed
}

protocol uncover "Uncover an implant" {
  materials { cap : screw }
  visit uncovering "Uncovering" {
    seat cap
    unscrew cap
  }
}
`,
  words: ({ thing, to, step, ways, always, related, mends }) => ({
    message: `${waysWords(thing, ways, always)} From there it cannot become ${plain(to)}, which is what "${step}" does.`,
    label: statesWords(ways),
    related,
    mends,
  }),
});
