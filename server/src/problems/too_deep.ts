import { type Place, problemKind } from './problem.ts';

interface Data {
  readonly expected: string | undefined;
  readonly place: Place;
}

export const tooDeep = problemKind<Data>({
  code: 'too_deep',
  severity: 'error',
  title: 'Nested too deep',
  page: `Blocks or brackets stand inside one another more often than anyone can follow. What is inside from here on was not read, and so not checked.

Break the work up: what belongs together becomes a \`procedure\` with a name.`,
  triggers: `
rule far_too_deep "Brackets in brackets" {
  whenever count (material m)
  expect   ${'('.repeat(101)}1 mL < 2 mL
  //                                                                                                           ^^^^^^^^^^^^ too_deep
  why      "Nobody can follow this"
  source   common_practice
}

action count (material m)
`,
  silent: `
rule not_too_deep "Brackets in brackets" {
  whenever count (material m)
  expect   ((1 mL) < (2 mL))
  why      "Two are enough"
  source   common_practice
}

action count (material m)
`,
  words: () => ({
    message: 'Blocks or brackets are nested too deep here; what is inside was not read.',
    label: 'not read from here',
  }),
});
