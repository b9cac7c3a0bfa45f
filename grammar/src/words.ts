/**
 * The word list. Completion, the TextMate grammar, the nearest-word repair and the documentation are made from it, and
 * `forms.ts` says how each line is read.
 */
import type { Container } from './tree.ts';

/** A word that begins a line, or what such a line is. */
export interface LineWord {
  /** one word, or two as in `must end` */
  readonly word: string;
  /** one sentence for completion and hover */
  readonly says: string;
  /** the line owns a block */
  readonly block: boolean;
}

function line(word: string, says: string): LineWord {
  return { word, says, block: false };
}

function block(word: string, says: string): LineWord {
  return { word, says, block: true };
}

const note = line('note', 'A remark for whoever reads on.');
const source = line('source', 'What this rests on.');
const sets = [
  line('has', 'Conditions that there are, or that apply.'),
  line('takes', 'Medicines that there are, or that are taken.'),
  line('allergic to', 'Allergies that there are, or that apply.'),
];
const patients = [
  line('contraindicated when', 'When this must not be used or done.'),
  line('caution when', 'When this needs particular care.'),
];

/** Which words begin a line in which block. */
export const lineWords: Readonly<Record<Container, readonly LineWord[]>> = {
  file: [
    line('use', 'Brings in the shipped library or a file beside this one.'),
    line('unit', 'A unit by its value, or a counting word.'),
    block('kind', 'A kind of thing: its properties, its states, how it must end.'),
    block('action', 'A verb: what it needs, makes, uses up, and how long it takes.'),
    block('procedure', 'A named run of steps, used like an action.'),
    block('rule', 'A constraint that no single action owns.'),
    block('source', 'What a rule or a limit rests on.'),
    block('finding', 'A closed set of findings for a decision to cover.'),
    block('pause', 'A safety stop with its items.'),
    block('protocol', 'A technique: what is given, who, with what, in which visits.'),
    block('case', 'A protocol with its given facts filled in.'),
    block('figures', 'One of several sets of figures that disagree; one of them is applied.'),
    line('apply', 'The set of figures that counts here.'),
    note,
  ],
  kind: [
    line('states', 'The states a thing goes through, and the moves between them.'),
    line('must end', 'The state it must be left in, and by when.'),
    line('serves as', 'What a thing of this kind stands for where a place is asked for.'),
    ...sets,
    ...patients,
    source,
    note,
  ],
  properties: [...sets, ...patients, note],
  action: [
    line('needs', 'What must hold before.'),
    line('makes', 'Which states it brings about.'),
    line('uses up', 'How much of a thing is gone afterwards.'),
    line('takes', 'How long it takes.'),
    line('by', 'Who may do it.'),
    ...patients,
    source,
    note,
  ],
  rule: [
    line('whenever', 'The step this rule looks at.'),
    line('expect', 'What must hold then.'),
    line('between', 'How much time lies between two steps.'),
    line('for each', 'Each thing of a kind, in a visit or in the protocol.'),
    line('for all', 'All things of a kind taken together, in a visit or in the protocol.'),
    line('order', 'Which step comes before or after which.'),
    line('count', 'How often a step comes.'),
    line('pause', 'A pause that must come before or after a step.'),
    line('every', 'What each entry of a kind must declare.'),
    line('severity', 'error, warning or advice.'),
    line('why', 'The reason, in one sentence.'),
    source,
    line('replaces', 'The rule that this one stands in for.'),
    note,
  ],
  source: [note],
  finding: [],
  pause: [
    line('item', 'One thing to be confirmed.'),
    line('takes', 'How long it takes.'),
    line('by', 'Who takes part.'),
    source,
    note,
  ],
  protocol: [
    line('version', 'The version, in three numbers.'),
    line('status', 'draft, in_review, approved or retired.'),
    line('owner', 'Who answers for it.'),
    line('review', 'How often it is reviewed.'),
    line('reviewed', 'The day of the last review.'),
    line('approved', 'The day it was approved, and by whom.'),
    line('follows', 'The protocol this one goes on from.'),
    block('given', 'The facts that are given: the patient, the site, the measurements.'),
    line('exclude when', 'When the protocol must not be used.'),
    line('caution when', 'When it needs particular care.'),
    block('team', 'Who is there.'),
    block('materials', 'What is used up or stays.'),
    block('instruments', 'What lies on the tray.'),
    block('visit', 'One sitting, with its steps.'),
    line('wait', 'The time between two visits.'),
    note,
  ],
  things: [],
  team: [],
  steps: [
    line('pause', 'A safety stop.'),
    line('wait', 'Time that must go by, or a state to wait for.'),
    line('verify', 'A measurement or an inspection, and what to do otherwise.'),
    block('decide', 'A decision over one finding or several.'),
    line('instruct', 'What the patient is told.'),
    line('record', 'A photograph, image or measurement to keep.'),
    block('together', 'Work that goes on at the same time.'),
    block('repeat', 'Steps that are done again.'),
    block('complication', 'What to do when something goes wrong.'),
    note,
    line('stop', 'This path ends here.'),
  ],
  options: [
    block('option', 'What to do for these findings.'),
    block('otherwise', 'What to do for all other findings.'),
    note,
  ],
  lanes: [block('lane', 'One of the runs of work that go on together.'), note],
  case: [line('start', 'The day of the first visit.'), ...sets, note],
  figures: [note],
  figure: [note],
};

/** What may begin each further thing in a step, and each slot of an action. */
export const prepositions = [
  'with',
  'into',
  'on',
  'in',
  'at',
  'to',
  'from',
  'over',
  'under',
  'around',
  'through',
  'until',
] as const;

/** What a line may say about itself at its end. */
export const clauseWords: readonly LineWord[] = [
  line('takes', 'How long it takes: a time, or a range of time.'),
  line('usually', 'How long it takes most often.'),
  line('by', 'Who does it.'),
  line('because', 'The reason, in quotes.'),
  line('source', 'What it rests on.'),
];

/** Names that nothing else may have. */
export const reservedWords = [
  ...prepositions,
  'by',
  'takes',
  'because',
  'source',
  'and',
  'or',
  'not',
  'is',
  'has',
  'for',
  'when',
  'where',
  'otherwise',
  'yes',
  'no',
] as const;

/** Words that stand between the parts of a line. */
export const joiningWords = [
  'is',
  'not',
  'and',
  'or',
  'has',
  'for',
  'when',
  'where',
  'otherwise',
  'of',
  'within',
  'then',
  'by',
  'lasts',
  'usually',
  'before',
  'after',
  'first',
  'last',
  'only',
  'declares',
  'given',
  'used',
  'every',
  'at least',
  'at most',
  'exactly',
  'never',
  'once',
  'times',
  'at home',
  'end of visit',
  'end of protocol',
  'in a visit',
  'in the protocol',
  'optional',
  'one or more',
  'one of',
  'any of',
  'range',
  'total',
] as const;

/** What a quantity may measure, as a property or a slot names it. */
export const quantityNames = [
  'length',
  'area',
  'volume',
  'mass',
  'time',
  'torque',
  'force',
  'rotational speed',
  'concentration',
  'dose per body mass',
  'temperature',
  'pressure',
  'ratio',
  'count',
] as const;

/** The other forms a property may have. */
export const propertyForms = ['size', 'yes or no', 'text', 'number', 'one of', 'any of'] as const;

/** Functions over values. */
export const functionNames = ['min', 'max', 'sum', 'count', 'total'] as const;

/** Values some lines choose from. */
export const valueWords = {
  severity: ['error', 'warning', 'advice'],
  status: ['draft', 'in_review', 'approved', 'retired'],
  scope: ['visit', 'protocol'],
  'yes or no': ['yes', 'no'],
  'end of a range': ['longest', 'shortest'],
  'part of a size': ['long_side', 'short_side', 'area', 'volume'],
} as const;

/** The whole word list. */
export const words = {
  lines: lineWords,
  clauses: clauseWords,
  prepositions,
  reserved: reservedWords,
  joining: joiningWords,
  quantities: quantityNames,
  propertyForms,
  functions: functionNames,
  values: valueWords,
} as const;
