import { problemKind } from './problem.ts';

interface Data {
  readonly name: string;
  readonly parent: string;
}

export const kindOfItself = problemKind<Data>({
  code: 'kind_of_itself',
  severity: 'error',
  title: 'Kind of itself',
  page: `A kind is, through one or more others, a kind of itself. So nothing can be said about what it is: a chain of kinds has to end in one that is no kind of another, such as \`material\` or \`place\`.

Look at what each of them is in truth: the narrower one (\`membrane\`) is a kind of the wider one (\`sheet\`), never the other way round as well.`,
  triggers: `
kind sheet "sheet" is membrane
//                    ^^^^^^^^ kind_of_itself
kind membrane "membrane" is sheet
//                          ^^^^^ kind_of_itself
`,
  silent: `
kind sheet "sheet" is material
kind membrane "membrane" is sheet
`,
  words: ({ name, parent }) => ({
    message:
      name === parent
        ? `"${name}" cannot be a kind of itself.`
        : `"${name}" is a kind of "${parent}", and "${parent}" is a kind of "${name}".`,
    label: 'leads back to itself',
  }),
});
