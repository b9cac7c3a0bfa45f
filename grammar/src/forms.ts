/** Which form a line has, by the block it stands in and its first words; and what block the line may own. */
import type { Container } from './tree.ts';

/** The parser's rules for whole lines. */
export type LineRule =
  | 'useLine'
  | 'unitLine'
  | 'kindLine'
  | 'entryLine'
  | 'actionLine'
  | 'procedureLine'
  | 'ruleLine'
  | 'sourceLine'
  | 'findingLine'
  | 'pauseLine'
  | 'protocolLine'
  | 'caseLine'
  | 'startLine'
  | 'figuresLine'
  | 'figureLine'
  | 'applyLine'
  | 'propertyLine'
  | 'statesLine'
  | 'lastsLine'
  | 'mustEndLine'
  | 'servesAsLine'
  | 'relationLine'
  | 'contraindicatedLine'
  | 'valueLine'
  | 'needsLine'
  | 'makesLine'
  | 'usesUpLine'
  | 'takesLine'
  | 'byLine'
  | 'sourceReferenceLine'
  | 'wheneverLine'
  | 'expectLine'
  | 'betweenLine'
  | 'forEachLine'
  | 'orderLine'
  | 'countLine'
  | 'pauseRuleLine'
  | 'everyLine'
  | 'severityLine'
  | 'whyLine'
  | 'replacesLine'
  | 'findingValueLine'
  | 'itemLine'
  | 'teamMemberLine'
  | 'versionLine'
  | 'statusLine'
  | 'ownerLine'
  | 'reviewLine'
  | 'reviewedLine'
  | 'approvedLine'
  | 'followsLine'
  | 'excludeLine'
  | 'cautionLine'
  | 'givenLine'
  | 'materialsLine'
  | 'instrumentsLine'
  | 'teamLine'
  | 'thingLine'
  | 'visitLine'
  | 'stepLine'
  | 'pauseStepLine'
  | 'waitLine'
  | 'verifyLine'
  | 'decideLine'
  | 'optionLine'
  | 'otherwiseLine'
  | 'instructLine'
  | 'recordLine'
  | 'togetherLine'
  | 'laneLine'
  | 'repeatLine'
  | 'complicationLine'
  | 'noteLine'
  | 'stopLine'
  | 'unreadableLine';

export interface Form {
  readonly rule: LineRule;
  /** the container of its block; undefined when it has none */
  readonly body: Container | undefined;
  /** what is missing when it stands without its block */
  readonly wants: string | undefined;
}

const form = (rule: LineRule, body?: Container, wants?: string): Form => ({ rule, body, wants });
const steps = 'a block { … } of steps';

const note = form('noteLine');
const sourceReference = form('sourceReferenceLine');
const relation = form('relationLine');
const contraindicated = form('contraindicatedLine');
const caution = form('cautionLine');
const takes = form('takesLine');
const by = form('byLine');
const wait = form('waitLine');

/** Lines told by their first word, for each container. */
export const forms: Readonly<Record<Container, ReadonlyMap<string, Form>>> = {
  file: new Map([
    ['use', form('useLine')],
    ['unit', form('unitLine')],
    ['kind', form('kindLine', 'kind')],
    ['action', form('actionLine', 'action')],
    ['procedure', form('procedureLine', 'steps', steps)],
    ['rule', form('ruleLine', 'rule', 'a block { … } with what the rule expects')],
    ['source', form('sourceLine', 'source')],
    ['finding', form('findingLine', 'finding', 'a block { … } of findings')],
    ['pause', form('pauseLine', 'pause')],
    ['protocol', form('protocolLine', 'protocol', 'a block { … } with the protocol')],
    ['case', form('caseLine', 'case', 'a block { … } with the facts of the case')],
    ['figures', form('figuresLine', 'figures', 'a block { … } with the figures')],
    ['apply', form('applyLine')],
    ['note', note],
  ]),
  kind: new Map([
    ['states', form('statesLine')],
    ['must', form('mustEndLine')],
    ['serves', form('servesAsLine')],
    ['has', relation],
    ['takes', relation],
    ['allergic to', relation],
    ['contraindicated', contraindicated],
    ['caution', caution],
    ['source', sourceReference],
    ['note', note],
  ]),
  properties: new Map([
    ['has', relation],
    ['takes', relation],
    ['allergic to', relation],
    ['contraindicated', contraindicated],
    ['caution', caution],
    ['note', note],
  ]),
  action: new Map([
    ['needs', form('needsLine')],
    ['makes', form('makesLine')],
    ['uses', form('usesUpLine')],
    ['takes', takes],
    ['by', by],
    ['contraindicated', contraindicated],
    ['caution', caution],
    ['source', sourceReference],
    ['note', note],
  ]),
  rule: new Map([
    ['whenever', form('wheneverLine')],
    ['expect', form('expectLine')],
    ['between', form('betweenLine')],
    ['for', form('forEachLine')],
    ['order', form('orderLine')],
    ['count', form('countLine')],
    ['pause', form('pauseRuleLine')],
    ['every', form('everyLine')],
    ['severity', form('severityLine')],
    ['why', form('whyLine')],
    ['source', sourceReference],
    ['replaces', form('replacesLine')],
    ['note', note],
  ]),
  source: new Map([['note', note]]),
  finding: new Map(),
  pause: new Map([
    ['item', form('itemLine')],
    ['takes', takes],
    ['by', by],
    ['source', sourceReference],
    ['note', note],
  ]),
  protocol: new Map([
    ['version', form('versionLine')],
    ['status', form('statusLine')],
    ['owner', form('ownerLine')],
    ['review', form('reviewLine')],
    ['reviewed', form('reviewedLine')],
    ['approved', form('approvedLine')],
    ['follows', form('followsLine')],
    ['given', form('givenLine', 'things', 'a block { … } with what is given')],
    ['exclude', form('excludeLine')],
    ['caution', caution],
    ['team', form('teamLine', 'team', 'a block { … } with who is there')],
    ['materials', form('materialsLine', 'things', 'a block { … } of materials')],
    ['instruments', form('instrumentsLine', 'things', 'a block { … } of instruments')],
    ['visit', form('visitLine', 'steps', steps)],
    ['wait', wait],
    ['note', note],
  ]),
  things: new Map(),
  team: new Map(),
  steps: new Map([
    ['pause', form('pauseStepLine', 'pause')],
    ['wait', wait],
    ['verify', form('verifyLine', 'steps')],
    ['decide', form('decideLine', 'options', 'a block { … } of options')],
    ['instruct', form('instructLine')],
    ['record', form('recordLine')],
    ['together', form('togetherLine', 'lanes', 'a block { … } of lanes')],
    ['repeat', form('repeatLine', 'steps', steps)],
    ['complication', form('complicationLine', 'steps', steps)],
    ['note', note],
    ['stop', form('stopLine')],
  ]),
  options: new Map([
    ['option', form('optionLine', 'steps', steps)],
    ['otherwise', form('otherwiseLine', 'steps', steps)],
    ['note', note],
  ]),
  lanes: new Map([
    ['lane', form('laneLine', 'steps', steps)],
    ['note', note],
  ]),
  case: new Map([
    ['start', form('startLine')],
    ['has', relation],
    ['takes', relation],
    ['allergic to', relation],
    ['note', note],
  ]),
  figures: new Map([['note', note]]),
  figure: new Map([['note', note]]),
};

export const entry = form('entryLine', 'properties');
export const property = form('propertyLine');
export const lasts = form('lastsLine');
export const step = form('stepLine');

/** A line no form fits; `body` is what its block is read as. */
export const unreadable = (body: Container): Form => form('unreadableLine', body);

/** Lines that any name may begin, where no word of the container does. */
export const openForms: Readonly<Partial<Record<Container, Form>>> = {
  properties: form('valueLine'),
  source: form('valueLine'),
  case: form('valueLine', 'properties'),
  figures: form('figureLine', 'figure', 'a block { … } with its figures'),
  figure: form('valueLine'),
  finding: form('findingValueLine'),
  things: form('thingLine', 'properties'),
  team: form('teamMemberLine'),
  steps: step,
};

/** Where a comma parts statements as a line end does. */
export function partedByCommas(container: Container): boolean {
  return commaContainers.has(container);
}

const commaContainers: ReadonlySet<Container> = new Set([
  'properties',
  'source',
  'case',
  'finding',
  'things',
  'team',
  'figures',
  'figure',
]);
