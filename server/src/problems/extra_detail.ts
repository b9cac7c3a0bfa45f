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
  page: `A step names something that its action has no place for: a preposition the action does not know, one thing too many, a measure where none is taken. What an action takes is shown when you point at its verb.`,
  triggers: '',
  silent: '',
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
