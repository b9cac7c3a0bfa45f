import type { SlotModel } from '../analysis/model.ts';
import { type FileId, problemKind } from './problem.ts';
import { plain } from './words.ts';

interface Data {
  readonly verb: string;
  readonly slot: SlotModel;
  readonly file: FileId;
  readonly statement: number;
  /** where the last thing of the step ends */
  readonly end: number;
  /** things of the protocol that would fit */
  readonly candidates: readonly string[];
}

export const missingSlot = problemKind<Data>({
  code: 'missing_slot',
  severity: 'error',
  title: 'Step leaves something out',
  page: `An action takes something that the step does not name: what it is done with, on what, how much of it. Whoever follows the protocol at the chair has to guess, and what the step needs and does cannot be checked.

Name it. The things of this protocol that would fit are offered.`,
  triggers: `
// quiet: missing_head
instrument spoon "Spoon curette"
action debride (place p) with (instrument i)

protocol clean "Clean a socket" {
  given { socket : place }
  instruments { spoon }
  visit surgery "Surgery" {
    debride socket
//  ^^^^^^^ missing_slot
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
  words: ({ verb, slot, file, statement, end, candidates }) => {
    const part = `${slot.preposition ? `${slot.preposition} ` : ''}${plain(slot.kindWord)}`;
    return {
      message: `"${plain(verb)}" does not say ${slot.preposition ? `"${slot.preposition}" what` : 'what'}: ${/^[aeiou]/.test(plain(slot.kindWord)) ? 'an' : 'a'} ${plain(slot.kindWord)} belongs here.`,
      label: `"${part}" missing`,
      mends: candidates.slice(0, 3).map((name) => ({
        title: `Add "${slot.preposition ? `${slot.preposition} ` : ''}${name}"`,
        edits: [
          {
            type: 'replace',
            place: { file, statement, span: { start: end, end } },
            text: ` ${slot.preposition ? `${slot.preposition} ` : ''}${name}`,
          },
        ],
      })),
    };
  },
});
