import type { Container } from '@curette/grammar';
import { COMMON_PRACTICE } from '../../analysis/kinds/declarations.ts';
import { pauseNamed } from '../../analysis/names/resolve.ts';
import type { Context } from './context.ts';
import { type Form, formOf } from './form.ts';
import { type CompletionItem, item, namesOf, pauseItems } from './items.ts';

/** Whether only white space stands behind the cursor on its line: a whole line can be written there. */
export function isRoom(text: string, offset: number): boolean {
  return /^[\p{L}\d_]*[ \t]*\r?$/u.test(text.slice(offset, text.indexOf('\n', offset) >>> 0));
}

/** The same words with the whole line that each begins, where it has a form. */
export function withForms(context: Context, items: readonly CompletionItem[]): readonly CompletionItem[] {
  const { container, words } = context.line;
  const forms = FORMS[container];
  if (words.length > 0 || !forms) return items;
  return items.map((one) => {
    if (one.sort !== 'keyword') return one;
    const form = container === 'steps' && one.label === 'pause' ? pauseForm(context) : forms.get(one.label);
    return form ? { ...one, form } : one;
  });
}

/** Further lines that a visit's block may be given whole: a measurement, and a decision over each finding with all its values. */
export function furtherSteps(context: Context): readonly CompletionItem[] {
  const named = namesOf(context.module, 'findings').flatMap((name): CompletionItem[] => {
    const form = decisionForm(context, name);
    return form ? [{ ...item('finding', `decide ${name}`, form.says, 4), form: form.form }] : [];
  });
  return [
    {
      ...item('keyword', 'verify "…"', 'An inspection, and what to do otherwise.', 3),
      form: formOf('verify "[What must be so]" otherwise "[What to do then]"'),
      formOnly: true,
    },
    ...named,
  ];
}

/** A decision with an option for each value of its finding; `decide` itself may stand already. */
export function decisionForm(
  context: Context,
  name: string,
  verb = 'decide ',
): { readonly form: Form; readonly says: string } | undefined {
  const finding = context.finding(name);
  if (!finding) return undefined;
  const options = [...finding.values.keys()].map((value) => `  option ${value} {\n    []\n  }\n`);
  return {
    form: formOf(`${verb}${name} {\n${options.join('')}}`),
    says: `${finding.label}: ${[...finding.values.values()].join(', ')}`,
  };
}

function pauseForm(context: Context): Form | undefined {
  const names = pauseItems(context.module).map(({ label }) => label);
  const declared = names.filter((name) => pauseNamed(context.module, name) !== undefined);
  return declared.length > 0 ? formOf(`pause [${declared.join('|')}]`) : undefined;
}

const BECAUSE = `because "[The reason]" source [${COMMON_PRACTICE}]`;

/** What a line says in full, by the word that begins it. The texts are the language's own: gaps in square brackets. */
const FORMS: Partial<Record<Container, ReadonlyMap<string, Form>>> = {
  file: forms({
    unit: 'unit [name] is [0.05 mL]',
    kind: 'kind [name] "[what it is called]" is [material] {\n  states [first] -> [second]\n}',
    action: `action [verb] ([kind] [x]) {\n  makes  [x] [state]\n  takes  [5 min]\n  by     [role]\n  source [${COMMON_PRACTICE}]\n}`,
    procedure: 'procedure [verb] "[What is done]" ([kind] [x]) {\n  []\n}',
    rule: `rule [name] "[What must be so, in one sentence]" {\n  whenever [verb] ([kind] [x])\n  expect   [x] [state]\n  severity [warning|error|advice]\n  why      "[The reason]"\n  source   [${COMMON_PRACTICE}]\n}`,
    source:
      'source [name] "[Title]" {\n  by         "[Who wrote it]"\n  year       [2020]\n  identifier "[Where it is found]"\n  strength   [guideline|review|trial|cohort|textbook|expert_opinion]\n}',
    finding: 'finding [name] "[What is looked for]" {\n  [first]  "[Found so]"\n  [second] "[Found otherwise]"\n}',
    pause: `pause [name] "[When the team stops]" {\n  item   "[What is confirmed aloud]"\n  takes  [1..2 min]\n  by     [role]\n  source [${COMMON_PRACTICE}]\n}`,
    protocol:
      'protocol [name] "[Title]" {\n  version 0.1.0\n  status  draft\n  owner   "[Who answers for it]"\n  review  every [12 mo]\n\n  given {\n    patient : patient\n  }\n  team { [surgeon] }\n  materials {\n    []\n  }\n  instruments {\n    []\n  }\n\n  visit [first] "[First visit]" {\n    []\n  }\n}',
    figures: 'figures [name] "[Whose figures]" of [group] {\n  []\n}',
    note: 'note "[]"',
  }),
  kind: forms({
    'contraindicated when': `contraindicated when [patient has] [condition] ${BECAUSE}`,
    'caution when': `caution when [patient has] [condition] ${BECAUSE}`,
    note: 'note "[]"',
  }),
  action: forms({
    takes: 'takes [5..10 min]',
    note: 'note "[]"',
  }),
  rule: forms({
    severity: 'severity [warning|error|advice]',
    why: 'why "[The reason]"',
    note: 'note "[]"',
  }),
  pause: forms({
    item: 'item "[What is confirmed aloud]"',
    takes: 'takes [1..2 min]',
    note: 'note "[]"',
  }),
  protocol: forms({
    version: 'version [0.1.0]',
    status: 'status [draft|in_review|approved|retired]',
    owner: 'owner "[Who answers for it]"',
    review: 'review every [12 mo]',
    given: 'given {\n  []\n}',
    'exclude when': `exclude when [patient has] [condition] ${BECAUSE}`,
    'caution when': `caution when [patient has] [condition] ${BECAUSE}`,
    team: 'team { [] }',
    materials: 'materials {\n  []\n}',
    instruments: 'instruments {\n  []\n}',
    visit: 'visit [name] "[What the visit is for]" {\n  []\n}',
    wait: 'wait [1..2 wk]',
    note: 'note "[]"',
  }),
  steps: forms({
    wait: 'wait [10 min]',
    verify: 'verify [property] of [thing] within [low..high] otherwise { stop "[Why]" }',
    instruct: 'instruct "[What the patient is told]"',
    record: 'record [what] "[Of what]"',
    together:
      'together {\n  lane "[One]" by [role] {\n    []\n  }\n  lane "[Beside it]" by [other_role] {\n    []\n  }\n}',
    repeat: 'repeat until "[What is reached]" at most [3] times {\n  []\n}',
    complication: 'complication "[What goes wrong]" {\n  []\n}',
    note: 'note "[]"',
    stop: 'stop "[Why, and where to]"',
  }),
  options: forms({
    otherwise: 'otherwise {\n  []\n}',
    note: 'note "[]"',
  }),
  lanes: forms({
    lane: 'lane "[Where]" by [role] {\n  []\n}',
    note: 'note "[]"',
  }),
};

/** @param lines by the word, so that a word of the language that changes is missed by a test and not here */
function forms(lines: Readonly<Record<string, string>>): ReadonlyMap<string, Form> {
  return new Map(Object.entries(lines).map(([word, text]) => [word, formOf(text)]));
}

/** The words that have a form, for whoever tests them. */
export const formedWords: readonly { readonly container: string; readonly word: string; readonly form: Form }[] =
  Object.entries(FORMS).flatMap(([container, lines]) =>
    [...(lines ?? [])].map(([word, form]) => ({ container, word, form })),
  );
