import { problemKind } from './problem.ts';

interface Data {
  readonly pass: string;
  readonly detail: string;
}

export const internalFailure = problemKind<Data>({
  code: 'internal_failure',
  severity: 'error',
  title: 'Not checked: our defect',
  page: `Part of the checker failed on this declaration, through no fault of the text. That part is **not checked**; everything else in this file and in others is.

Please report it, with the text that caused it. Until it is mended, read the declaration with your own eyes as you would without the checker. In the example \`//! fails\` stands for such a defect.`,
  triggers: `
// quiet: missing_head
action rinse (place p)

protocol morning "Morning rinse" {
// <^^^^^^^^^^^^^^^^^^^^^^^^^^^^ internal_failure
  given { mouth : place }
  visit only "Only visit" {
    rinse mouth //! fails
  }
}

protocol evening "Evening rinse" {
  given { mouth : place }
  visit only "Only visit" {
    rinse lips
    //    ^^^^ unknown_name
  }
}
`,
  silent: `
// quiet: missing_head
action rinse (place p)

protocol morning "Morning rinse" {
  given { mouth : place }
  visit only "Only visit" {
    rinse mouth
  }
}
`,
  words: ({ pass, detail }) => ({
    message: `This was not checked (${pass}) because the checker itself failed: ${detail}. Please report it.`,
    label: 'not checked',
  }),
});
