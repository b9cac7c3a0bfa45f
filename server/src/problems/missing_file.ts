import { type Place, problemKind } from './problem.ts';
import { meant } from './words.ts';

interface Data {
  readonly path: string;
  /** it was looked for in the shipped library */
  readonly library: boolean;
  readonly known: readonly string[];
  readonly place: Place;
}

export const missingFile = problemKind<Data>({
  code: 'missing_file',
  severity: 'error',
  title: 'File not found',
  page: `A \`use\` names a file that is not there, so nothing that it declares is known here.

Paths that begin with \`std/\` are the shipped library; all others count from the folder of the file they stand in, without the ending \`.curette\`. Correct the path, or remove the line if nothing of the file is needed any more.`,
  triggers: `
//- protocols/recall.curette
use std/perioperativ
//  ^^^^^^^^^^^^^^^^ missing_file
use ../shared/house_rules
//  ^^^^^^^^^^^^^^^^^^^^^ missing_file
`,
  silent: `
//- protocols/recall.curette
use std/perioperative
use ../shared/house_rules

//- shared/house_rules.curette
use std/perioperative

rule count_before_leaving "Swabs are counted" {
  count    count (counted_item c) at least once in a visit
  why      "What is not counted is not missed"
  source   common_practice
}
`,
  words: ({ path, library, known, place }) => {
    const { sentence, mends } = meant(path, known, place);
    return {
      message: `There is no file "${path}"${library ? ' in the library' : ', counted from the folder of this one'}.${sentence}`,
      label: 'not found',
      mends,
    };
  },
});
