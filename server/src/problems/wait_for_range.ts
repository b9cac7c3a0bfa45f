import { formatQuantity, type Quantity, shortest } from '@curette/shared';
import { type Place, problemKind } from './problem.ts';
import { plain } from './words.ts';

interface Data {
  readonly thing: string;
  readonly state: string;
  readonly asked: Quantity;
  readonly place: Place;
  /** the shorter end, as it is written in a protocol; undefined where there is none */
  readonly shorter: string | undefined;
}

export const waitForRange = problemKind<Data>({
  code: 'wait_for_range',
  severity: 'error',
  title: 'Waits for a range',
  page: `\`wait until graft is wetted for 10 min\` ends the moment the graft has been wetted for ten minutes. So only the shortest time means something here: nobody waits until something is ten *to twenty* minutes old, and what is *at most* ten minutes old is so at once.

Write the one time to wait for. An upper limit belongs to the step that needs it, \`needs g wetted for 10..20 min\`, or to the state, \`wetted lasts at most 20 min\`: there it is checked. Where the team may choose how long to wait, write \`wait 10..20 min\`.`,
  triggers: `
// quiet: missing_head
kind graft "bone graft" is material {
  states dry -> wetted -> packed
}
action wet (graft g) {
  makes g wetted
}

protocol socket_graft "Graft a socket" {
  materials { granules : graft }
  visit surgery "Surgery" {
    wet granules
    wait until granules is wetted for 10..20 min
    //                                ^^^^^^^^^^ wait_for_range
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
}

protocol socket_graft "Graft a socket" {
  materials { granules : graft }
  visit surgery "Surgery" {
    wet granules
    wait until granules is wetted for 10 min
  }
}
`,
  words: ({ thing, state, asked, place, shorter }) => {
    const least = shortest(asked);
    return {
      message: least
        ? `The wait ends as soon as "${thing}" has been ${plain(state)} for ${formatQuantity(least)}; the longer end of ${formatQuantity(asked)} bounds nothing here.`
        : `"${thing}" is ${plain(state)} for ${formatQuantity(asked)} as soon as it is ${plain(state)}: there is nothing to wait for.`,
      label: 'one time belongs here',
      mends: shorter ? [{ title: `Change to "${shorter}"`, edits: [{ type: 'replace', place, text: shorter }] }] : [],
    };
  },
});
