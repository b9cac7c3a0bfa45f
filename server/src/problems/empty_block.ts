import { problemKind } from './problem.ts';

interface Data {
  readonly what: 'decide' | 'together' | 'repeat';
  readonly wants: string;
}

const NAMES: Readonly<Record<Data['what'], string>> = {
  decide: 'This decision',
  together: 'This work side by side',
  repeat: 'This repetition',
};

export const emptyBlock = problemKind<Data>({
  code: 'empty_block',
  severity: 'warning',
  title: 'Nothing inside',
  page: `A decision without options, work side by side without lanes, a repetition without steps: the line promises something and then says nothing.

Fill it in, or remove the line.`,
  triggers: `
// quiet: missing_head
finding bleeding "Bleeding" { stopped, oozing }

protocol bleed "Bleeding socket" {
  visit evening "Evening call" {
    decide bleeding "Look into the socket" {
//  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ empty_block
    }
    repeat until "It has stopped" at most 3 times {
//  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ empty_block
    }
  }
}
`,
  silent: `
// quiet: missing_head
finding bleeding "Bleeding" { stopped, oozing }

protocol bleed "Bleeding socket" {
  visit evening "Evening call" {
    decide bleeding "Look into the socket" {
      option stopped { }
      option oozing { note "Bite on damp gauze for 20 min" }
    }
    repeat until "It has stopped" at most 3 times {
      note "Fresh gauze"
    }
  }
}
`,
  words: ({ what, wants }) => ({ message: `${NAMES[what]} has no ${wants} in it.`, label: `no ${wants}` }),
});
