import { problemKind } from './problem.ts';
import { plain } from './words.ts';

interface Data {
  readonly verb: string;
}

export const procedureInItself = problemKind<Data>({
  code: 'procedure_in_itself',
  severity: 'error',
  title: 'Procedure calls itself',
  page: `A procedure is a run of steps with a name. This one contains itself, directly or through another, so its steps would never come to an end. They were not followed.

If something is to be done again until it is right, write \`repeat until "…" at most 3 times { … }\`. Often an action of the same name was meant: then one of the two needs another verb.`,
  triggers: `
// quiet: missing_head
procedure press "Press until it stops" (place p) {
  press p
// <^^^ procedure_in_itself
}

protocol bleed "Bleeding socket" {
  given { site : place }
  visit evening "Evening call" {
    press site
//  ^^^^^ procedure_in_itself
  }
}
`,
  silent: `
// quiet: missing_head
action hold (place p)

procedure press "Press until it stops" (place p) {
  hold p
}

protocol bleed "Bleeding socket" {
  given { site : place }
  visit evening "Evening call" {
    press site
  }
}
`,
  words: ({ verb }) => ({
    message: `The procedure "${plain(verb)}" leads back to itself; its steps would never end and were not followed.`,
    label: 'leads back to itself',
  }),
});
