import { type Place, problemKind, type SourceNote } from './problem.ts';

interface Data {
  /** the protocol, as it is called */
  readonly protocol: string;
  /** in words */
  readonly condition: string;
  readonly because: string | undefined;
  readonly source: SourceNote | undefined;
  readonly declared: Place;
}

export const caseCautioned = problemKind<Data>({
  code: 'case_cautioned',
  severity: 'advice',
  title: 'Needs particular care',
  page: `The protocol treats such patients, and says that it asks for particular care (\`caution when …\`). It stands here so that it is seen when the case is prepared, not only when the patient sits down; the case's checklist names it under "With care".

Nothing is wrong with the case.`,
  triggers: `
// quiet: missing_head
protocol close "Close a small wound" {
  given { patient : patient }
  caution when patient has smoking because "Heals more slowly"
  visit closing "Closing" {
    note "Look"
  }
}

case first of close {
  patient { has smoking }
  //            ^^^^^^^ case_cautioned
}
`,
  silent: `
// quiet: missing_head
protocol close "Close a small wound" {
  given { patient : patient }
  caution when patient has smoking because "Heals more slowly"
  visit closing "Closing" {
    note "Look"
  }
}

case first of close {
  patient { has bruxism }
}
`,
  words: ({ protocol, condition, because, source, declared }) => ({
    message: `"${protocol}" asks for particular care when ${condition}.`,
    label: 'with care',
    why: because,
    source,
    related: [{ place: declared, message: 'the caution' }],
  }),
});
