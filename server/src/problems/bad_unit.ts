import { problemKind } from './problem.ts';

interface Data {
  readonly name: string;
  readonly reason: 'already_a_unit' | 'not_one_value';
}

export const badUnit = problemKind<Data>({
  code: 'bad_unit',
  severity: 'error',
  title: 'Unit cannot be declared',
  page: `A \`unit\` declaration gives a word of your own a fixed worth: a drop, a cartridge, a scoop. It is refused when the word is a unit already or could be taken for one (nobody must be able to redefine \`min\`), and when its worth is not one single value above nought.

Choose another word, or state one value: \`unit drop, drops is 0.05 mL\`. A word that only counts pieces is declared with \`is count\`; how much is in one piece then stands with the material.`,
  triggers: `
unit min is 60 s
// <^^^^^^^^^^^^ bad_unit
unit scoop, scoops is 0.25..0.5 mL
// <^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ bad_unit
`,
  silent: `
unit scoop, scoops is 0.5 mL
`,
  words: ({ name, reason }) => ({
    message:
      reason === 'already_a_unit'
        ? `"${name}" is a unit already, or could be taken for one; give the new unit another name.`
        : `"${name}" needs one single value above nought, such as 0.05 mL, or "is count".`,
  }),
});
