import { type FileId, problemKind } from './problem.ts';

interface Data {
  readonly path: string;
  readonly file: FileId;
  readonly statement: number;
}

export const unusedUse = problemKind<Data>({
  code: 'unused_use',
  severity: 'advice',
  title: 'Used for nothing',
  page: `A file is in use, but nothing that it declares is named here and it brings no rules. It does no harm; but a reader would look in it for something that is not there.

Remove the line.`,
  triggers: `
//- protocols/recall.curette
use ../shared/places
//  ^^^^^^^^^^^^^^^^ unused_use

kind sheet "sheet" is material

//- shared/places.curette
place palate "Palate"
`,
  silent: `
//- protocols/recall.curette
use ../shared/places

kind sheet "sheet" is material
place hard_part "Hard palate" is palate

//- shared/places.curette
kind palate "palate" is place
`,
  words: ({ path, file, statement }) => ({
    message: `Nothing of "${path}" is named here, and it brings no rules.`,
    label: 'not needed',
    mends: [{ title: `Remove "use ${path}"`, edits: [{ type: 'remove', file, statement }] }],
  }),
});
