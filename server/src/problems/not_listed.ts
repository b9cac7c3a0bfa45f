import type { Things } from '../analysis/protocol/things.ts';
import { type FileId, problemKind } from './problem.ts';

interface Data {
  readonly name: string;
  readonly label: string;
  readonly group: 'materials' | 'instruments';
  readonly file: FileId;
  readonly things: Things;
}

export const notListed = problemKind<Data>({
  code: 'not_listed',
  severity: 'error',
  title: 'Not on the list',
  page: `A step uses a material or an instrument that the protocol does not list. The tray is set and the order is written from the lists, so it would not be there when it is needed.

Add it to the list, or use what is listed.`,
  triggers: `
// quiet: missing_head
instrument spoon "Spoon curette"
instrument elevator "Elevator"
action debride (place p) with (instrument i)

protocol clean "Clean a socket" {
  given { socket : place }
  instruments { elevator }
  visit surgery "Surgery" {
    debride socket with elevator
    debride socket with spoon
    //                  ^^^^^ not_listed
  }
}
`,
  silent: `
// quiet: missing_head
instrument spoon "Spoon curette"
instrument elevator "Elevator"
action debride (place p) with (instrument i)

protocol clean "Clean a socket" {
  given { socket : place }
  instruments { elevator, spoon }
  visit surgery "Surgery" {
    debride socket with elevator
    debride socket with spoon
  }
}
`,
  words: ({ name, label, group, file, things }) => {
    const block = things.key.find((statement) => statement.type === group);
    return {
      message:
        group === 'instruments'
          ? `"${label}" is used but is not on the tray: it is missing from the list of instruments.`
          : `"${label}" is used but is not in the list of materials.`,
      title: group === 'instruments' ? 'Not on the tray' : 'Not in the materials',
      label: group === 'instruments' ? 'not on the tray' : 'not listed',
      mends: block
        ? [
            {
              title: `Add "${name}" to the ${group}`,
              edits: [
                {
                  type: 'append',
                  file,
                  statement: block.id,
                  lines: [group === 'materials' ? `${name} : ${name}` : name],
                },
              ],
            },
          ]
        : [],
    };
  },
});
