import { type Place, problemKind } from './problem.ts';

interface Data {
  readonly name: string;
  readonly first: Place;
  /** both are done all the same: two visits of one name */
  readonly both?: true;
}

export const duplicateName = problemKind<Data>({
  code: 'duplicate_name',
  severity: 'error',
  title: 'Name used twice',
  page: `Two things of the same sort have the same name in one file or in one protocol. Only the first counts: whoever reads the second one is misled about what it stands for.

Rename one of them, or remove it if it was pasted by mistake.`,
  triggers: `
// quiet: missing_head
instrument probe "Blunt probe"
instrument probe "Periodontal probe"
//         ^^^^^ duplicate_name

action test (place p) with (instrument i)

protocol check "Test the block" {
  given {
    site : place
    site : tissue
//  ^^^^ duplicate_name
  }
  instruments { probe }
  visit block "Block" {
    test site with probe
  }
}
`,
  silent: `
// quiet: missing_head
instrument blunt_probe "Blunt probe"
instrument probe "Periodontal probe"

action test (place p) with (instrument i)

protocol check "Test the block" {
  given {
    site : place
  }
  instruments { probe }
  visit block "Block" {
    test site with probe
  }
}
`,
  words: ({ name, first, both }) => ({
    message: `"${name}" is already used above; ${both ? 'nobody can tell the two apart' : 'only the first one counts'}.`,
    label: 'used already',
    related: [{ place: first, message: `"${name}" first stands here` }],
  }),
});
