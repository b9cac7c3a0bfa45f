import type { Action, Procedure } from '../analysis/model.ts';
import { problemKind } from './problem.ts';
import { plain } from './words.ts';

interface Data {
  readonly verb: string;
  readonly preposition: string | undefined;
  readonly what: 'thing' | 'measure' | 'text';
  readonly action: Action | Procedure;
}

const NOUNS: Readonly<Record<Data['what'], string>> = { thing: 'thing', measure: 'measure', text: 'text' };

export const extraDetail = problemKind<Data>({
  code: 'extra_detail',
  severity: 'error',
  title: 'Detail the action does not take',
  page: `A step names something that its action has no place for: a preposition the action does not know, one thing too many, a measure where none is taken. What is written is then checked by nobody, and the reader at the chair has to guess what was meant.

The message shows how a step of this action reads. Remove what it does not take, use the preposition it knows, or, if the technique does need the detail, give the action a place for it where it is declared.`,
  triggers: `
// quiet: missing_head
instrument scissors "Scissors"
action trim (material m) to (size piece)

protocol cut "Cut a membrane to size" {
  given { site : place }
  materials { cover : material }
  instruments { scissors }
  visit surgery "Surgery" {
    trim cover to 9 mm by 8 mm with scissors
    //                              ^^^^^^^^ extra_detail
  }
}
`,
  silent: `
// quiet: missing_head
instrument scissors "Scissors"
action trim (material m) to (size piece) with (instrument i)

protocol cut "Cut a membrane to size" {
  given { site : place }
  materials { cover : material }
  instruments { scissors }
  visit surgery "Surgery" {
    trim cover to 9 mm by 8 mm with scissors
  }
}
`,
  words: ({ verb, preposition, what, action }) => ({
    message: `"${plain(verb)}" takes no ${preposition ? `"${preposition}" here` : `further ${NOUNS[what]}`}; it reads: ${formOf(action)}.`,
    label: 'not taken by this action',
  }),
});

/** How a step of an action reads: "lay membrane on place". */
export function formOf(action: Action | Procedure): string {
  const slots = action.slots.map((slot) => {
    const words = `${slot.preposition ? `${slot.preposition} ` : ''}${plain(slot.kindWord)}`;
    return slot.optional ? `(${words})` : words;
  });
  return [plain(action.verb), ...slots].join(' ');
}
