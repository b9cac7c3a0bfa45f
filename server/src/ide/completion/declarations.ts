import { type Statement, words as wordList } from '@curette/grammar';
import { type DimensionName, dimension, dimensionNamed } from '@curette/shared';
import { descendsFrom } from '../../analysis/kinds/subkind.ts';
import type { Kind, Property } from '../../analysis/model.ts';
import { actionsNamed, entryNamed, findingNamed, kindNamed } from '../../analysis/names/resolve.ts';
import { readingOf, spoken } from '../as-written.ts';
import { protocolNamed } from '../surroundings.ts';
import { type Context, propertyItems } from './context.ts';
import { expressionItems, nameItems, stateItems } from './expressions.ts';
import {
  type CompletionItem,
  catalogueItems,
  declaredUnitItems,
  fileItems,
  item,
  kindItems,
  kindsUnder,
  lineWordItems,
  namesOf,
  pauseItems,
  roleItems,
  sourceItems,
  unitItems,
  wordItems,
} from './items.ts';
import type { Word } from './line.ts';
import { groundItems, waitItems } from './steps.ts';

type Items = readonly CompletionItem[];

/** Outside of every block. */
export function fileLevelItems(context: Context): Items {
  const { module, line } = context;
  const [first, ...rest] = line.words;
  const last = rest.at(-1);
  if (!first)
    return [...lineWordItems(wordList.lines.file), ...kindItems(module, (kind) => !descendsFrom(kind, 'patient'), 1)];
  if (last?.text === '(' || (last && ['optional', 'more'].includes(last.text))) return slotKindItems(context);
  switch (first.text) {
    case 'use': {
      // A path is one word to the reader; what is typed of it stands before.
      return fileItems(module, context.checked.snapshot().library);
    }
    case 'kind':
      if (last?.text === 'is') return kindItems(module, ({ name }) => name !== rest[0]?.text);
      return rest.length > 0 ? wordItems(['is']) : [];
    case 'unit':
      if (last?.text === 'is') return wordItems(['count']);
      return last?.sort === 'number'
        ? unitItems((['volume', 'mass', 'length', 'time'] as const).map((name) => dimension(name)))
        : wordItems(['is']);
    case 'case':
      if (last?.text === 'of') return protocolItems(context);
      return rest.length > 0 ? wordItems(['of']) : [];
    case 'action':
    case 'procedure':
      return last?.text === ')' || rest.length === 1 ? wordItems(wordList.prepositions, 'preposition') : [];
    case 'rule':
    case 'source':
    case 'finding':
    case 'pause':
    case 'protocol':
    case 'note':
      return [];
    default: {
      const group = kindNamed(module, first.text);
      if (!group || rest.length === 0) return [];
      return last?.text === 'is' ? kindItems(module, kindsUnder(group)) : wordItems(['is']);
    }
  }
}

/** In a protocol's block, outside of its visits. */
export function protocolLevelItems(context: Context): Items {
  const { line } = context;
  const [first, ...rest] = line.words;
  const last = rest.at(-1);
  if (!first)
    return lineWordItems(notYet(wordList.lines.protocol, line.others, ['visit', 'wait', 'exclude', 'caution', 'note']));
  switch (first.text) {
    case 'status':
      return rest.length === 0 ? wordItems(wordList.values.status, 'value') : [];
    case 'review':
      if (rest.length === 0) return wordItems(['every']);
      return last?.sort === 'number' ? unitItems([dimension('calendar time'), dimension('time')]) : [];
    case 'follows':
      return rest.length === 0 ? protocolItems(context) : [];
    case 'approved':
      return rest.length > 0 ? wordItems(['by']) : [];
    case 'exclude':
    case 'caution': {
      if (rest.length === 0) return wordItems(['when']);
      const ground = rest.findIndex(({ text }) => text === 'because' || text === 'source');
      if (ground >= 0) return groundItems(context, rest);
      const written = rest.slice(1);
      const offered = expressionItems(context, written);
      const whole =
        written.length > 2 && offered.every(({ label }) => label === 'and' || label === 'or' || label === 'for');
      return whole ? [...offered, ...groundItems(context, rest)] : offered;
    }
    case 'wait':
      return waitItems(context, rest);
    default:
      return [];
  }
}

/** In `given`, `materials` or `instruments`. */
export function thingListItems(context: Context): Items {
  const { line, module } = context;
  const group = line.owners.at(-1)?.statement.type;
  const root = group === 'materials' ? 'material' : group === 'instruments' ? 'instrument' : undefined;
  const listed = new Set(line.others.flatMap((other) => (other.type === 'thing' ? [other.name.text] : [])));
  const [first, ...rest] = line.words;
  const last = rest.at(-1);
  if (!first)
    return group === 'instruments' ? catalogueItems(module, root).filter(({ label }) => !listed.has(label)) : [];
  if (last?.text === ':')
    return root
      ? catalogueItems(module, root)
      : kindItems(module, (kind) => !descendsFrom(kind, 'material') && !descendsFrom(kind, 'instrument'));
  if (last?.sort === 'number') return amountUnitItems(context, last.text === '1');
  const ground = groundItems(context, rest);
  if (rest.at(-2)?.sort === 'number') return [item('keyword', 'by', 'one more side'), ...ground];
  return rest.length > 1 ? ground : [];
}

/** In the block of an entry, a given thing, a source or a case. */
export function propertyLevelItems(context: Context): Items {
  const { line } = context;
  const owner = line.owners.at(-1)?.statement;
  if (owner?.type === 'source') return sourceFactItems(context);
  if (owner?.type === 'case') return caseItems(context, owner);
  const kind = kindOfOwner(context);
  if (!kind) return [];
  const [first, ...rest] = line.words;
  if (!first) {
    const given = new Set(line.others.flatMap((other) => (other.type === 'value' ? [other.name.text] : [])));
    const relations = (['has', 'takes', 'allergic to'] as const).filter(
      (relation) => kind.relations[relation].size > 0,
    );
    return [
      ...propertyItems(kind, ({ name }) => !given.has(name)),
      ...wordItems(relations, 'keyword', 1),
      ...(owner?.type === 'entry' ? wordItems(['contraindicated when'], 'keyword', 2) : []),
    ];
  }
  const relation = relationAt(line.words);
  if (relation) return relationItems(kind, relation);
  if (first.text === 'contraindicated') return conditionItems(context, rest.slice(1), rest);
  const property = kind.properties.get(first.text);
  if (!property) return [];
  const further = property.type?.form === 'size' ? [item('keyword', 'by', 'one more side')] : [];
  return valueItems(context, property, rest) ?? [...further, ...groundItems(context, rest)];
}

/** In a kind's block. */
export function kindLevelItems(context: Context): Items {
  const { line, module } = context;
  const owner = line.owners.at(-1)?.statement;
  const name = owner?.type === 'kind' ? owner.name?.text : undefined;
  const kind = name === undefined ? undefined : kindNamed(module, name);
  const [first, ...rest] = line.words;
  const last = rest.at(-1);
  if (!first)
    return [...lineWordItems(wordList.lines.kind), ...stateItems(context, name).map((one) => ({ ...one, rank: 1 }))];
  if (last?.text === ':')
    return [
      ...wordItems(wordList.quantities, 'value'),
      ...wordItems(wordList.propertyForms, 'value'),
      ...kindItems(module, () => true, 1),
    ];
  if (rest[0]?.text === ':') {
    if (last?.sort === 'number') return unitItems([dimensionOfType(rest) ?? dimension('length')]);
    return [...wordItems(['range', 'within']), ...groundItems(context, rest)];
  }
  if (rest[0]?.text === 'lasts') {
    if (last?.text === 'then') return stateItems(context, name);
    if (last?.text === 'lasts') return wordItems(['at most']);
    if (last?.text === 'most')
      return propertyItems(kind, ({ type }) => type?.form === 'quantity' && type.dimension === 'time');
    if (last?.text === ',') return wordItems(['then']);
    return line.path !== undefined || last?.sort === 'number'
      ? expressionItems(context, rest.slice(3))
      : groundItems(context, rest);
  }
  switch (first.text) {
    case 'must': {
      if (last?.text === 'end' || last?.text === 'or') return stateItems(context, name);
      if (last?.text === 'pause') return pauseItems(module);
      if (last?.text === 'before') return wordItems(['pause']);
      const due = rest.some(({ text }) => text === 'by' || text === 'before');
      return due
        ? groundItems(context, rest)
        : wordItems(['or', 'by end of visit', 'by end of protocol', 'before pause']);
    }
    case 'serves':
      return last?.text === 'as' ? kindItems(module, () => true) : [];
    case 'contraindicated':
      return conditionItems(context, rest.slice(1), rest);
    case 'source':
      return rest.length === 0 ? sourceItems(module) : [];
    case 'states':
      return last?.text === ',' ? wordItems(['any'], 'value') : [];
    default:
      return [];
  }
}

/** In an action's block. */
export function actionLevelItems(context: Context): Items {
  const { line, module } = context;
  const [first, ...rest] = line.words;
  const last = rest.at(-1);
  if (!first) return lineWordItems(wordList.lines.action);
  switch (first.text) {
    case 'needs':
      return conditionItems(context, rest, rest);
    case 'makes':
      if (line.path !== undefined) return context.propertiesOfPath(() => true);
      if (!last || last.text === ',') return nameItems(context);
      return stateItems(context, last.text);
    case 'uses':
      if (rest.length === 0) return wordItems(['up']);
      if (last?.text === 'up') return nameItems(context);
      return [
        ...wordItems(['at least', 'at most']),
        ...expressionItems(context, rest.slice(1)).filter(({ sort }) => sort === 'property'),
      ];
    case 'takes':
      if (last?.sort === 'number') return unitItems([dimension('time')]);
      return last ? wordItems(['usually']) : [];
    case 'by':
      return !last || last.text === ',' ? roleItems(module) : [];
    case 'source':
      return rest.length === 0 ? sourceItems(module) : [];
    default:
      return [];
  }
}

/** In a rule's block. */
export function ruleLevelItems(context: Context): Items {
  const { line, module } = context;
  const [first, ...rest] = line.words;
  const last = rest.at(-1);
  if (!first)
    return lineWordItems(
      notYet(wordList.lines.rule, line.others, ['expect', 'order', 'count', 'pause', 'between', 'note']),
    );
  if (last?.text === '(' || (last && ['optional', 'more'].includes(last.text))) return slotKindItems(context);
  const pattern = [...verbPatternItems(context), item('keyword', 'pause', 'a pause', 1)];
  switch (first.text) {
    case 'whenever':
      if (rest.length === 0) return pattern;
      if (rest.some(({ text }) => text === 'where'))
        return expressionItems(context, rest.slice(rest.findIndex(({ text }) => text === 'where') + 1));
      return [...wordItems(wordList.prepositions, 'preposition'), ...wordItems(['where'])];
    case 'expect':
      return expressionItems(context, rest);
    case 'order':
      if (rest.length === 0 || last?.text === 'before' || last?.text === 'after') return pattern;
      if (last?.text === 'pause') return pauseItems(module);
      if (last?.text === 'only') return wordItems(['after']);
      return wordItems(['before', 'only after', 'first', 'last', 'in a visit', 'in the protocol']);
    case 'count':
      if (rest.length === 0) return pattern;
      return last?.sort === 'number'
        ? wordItems(['times'])
        : wordItems(['exactly', 'at least', 'at most', 'never', 'once', 'times', 'in a visit', 'in the protocol']);
    case 'between':
      if (rest.length === 0 || last?.text === 'and') return pattern;
      return last?.sort === 'number'
        ? unitItems([dimension('time'), dimension('calendar time')])
        : wordItems(['and', 'at least', 'at most']);
    case 'pause':
      if (rest.length === 0) return pauseItems(module);
      return last?.text === 'before' || last?.text === 'after'
        ? verbPatternItems(context)
        : wordItems(['before', 'after']);
    case 'for':
      if (last?.text === 'each') return kindItems(module, () => true);
      return rest.length > 1 ? wordItems(['given', 'used', 'in a visit', 'in the protocol']) : wordItems(['each']);
    case 'every': {
      const kind = rest[0] && kindNamed(module, rest[0].text);
      if (!rest[0]) return kindItems(module, () => true);
      return last?.text === 'declares' || last?.text === ','
        ? propertyItems(kind, () => true)
        : wordItems(['declares']);
    }
    case 'severity':
      return rest.length === 0 ? wordItems(wordList.values.severity, 'value') : [];
    case 'source':
      return rest.length === 0 ? sourceItems(module) : [];
    case 'replaces':
      return rest.length === 0 ? replaceableItems(context) : [];
    default:
      return [];
  }
}

/** In the block of a pause, declared or in use. */
export function pauseLevelItems(context: Context): Items {
  const { line, module } = context;
  const [first, ...rest] = line.words;
  const last = rest.at(-1);
  const inUse = line.owners.at(-1)?.statement.type === 'pause step';
  if (!first)
    return lineWordItems(wordList.lines.pause.filter(({ word }) => !inUse || word === 'item' || word === 'note'));
  if (first.text === 'takes' && last?.sort === 'number') return unitItems([dimension('time')]);
  if (first.text === 'by') return !last || last.text === ',' ? roleItems(module) : [];
  return first.text === 'source' && !last ? sourceItems(module) : [];
}

export function teamItems(context: Context): Items {
  const listed = context.line.others.flatMap((other) => (other.type === 'team member' ? [other.name.text] : []));
  return context.line.words.length === 0 ? roleItems(context.module, new Set(listed)) : [];
}

export function laneItems(context: Context): Items {
  const { words } = context.line;
  if (words.length === 0) return lineWordItems(wordList.lines.lanes);
  const last = words.at(-1);
  if (last?.text === 'by' || last?.text === ',') return context.roles();
  return words.some(({ text }) => text === 'by') ? [] : wordItems(['by']);
}

// ── parts ───────────────────────────────────────────────────────────────────────────────────────────────────────────

/** What a property may hold; undefined when it holds something already. */
function valueItems(context: Context, property: Property, rest: readonly Word[]): Items | undefined {
  const { module } = context;
  const last = rest.at(-1);
  const { type } = property;
  if (last?.sort === 'number') {
    if (type?.form === 'quantity') {
      const wanted = dimensionNamed(type.dimension);
      const also = type.dimension === 'time' ? [dimension('calendar time')] : [];
      return wanted ? unitItems([wanted, ...also]) : [];
    }
    return type?.form === 'size' ? unitItems([dimension('length')]) : [];
  }
  if (last && last.text !== ',') return undefined;
  switch (type?.form) {
    case 'one of':
    case 'any of':
      return wordItems(
        type.values.map(({ text }) => text),
        'value',
      );
    case 'yes or no':
      return wordItems(wordList.values['yes or no'], 'value');
    case 'kind': {
      const wanted = kindNamed(module, type.kind.text);
      const things = context.things().filter((thing) => wanted === undefined || descendsFrom(thing.kind, wanted.name));
      return [
        ...things.map((thing) => item('thing', thing.name, thing.kind.label)),
        ...(things.length > 0 ? [] : catalogueItems(module, wanted, 1)),
      ];
    }
    default:
      return [];
  }
}

function conditionItems(context: Context, written: readonly Word[], rest: readonly Word[]): Items {
  if (rest.length === 0 && context.line.words[0]?.text === 'contraindicated') return wordItems(['when']);
  if (rest.some(({ text }) => text === 'because' || text === 'source')) return groundItems(context, rest);
  const since = written.map(({ text }) => text).lastIndexOf(',');
  const offered = expressionItems(context, written.slice(since + 1));
  return written.length > since + 2 ? [...offered, ...groundItems(context, rest)] : offered;
}

function slotKindItems(context: Context): Items {
  return [
    ...kindItems(context.module, () => true),
    ...wordItems([...wordList.quantities, 'size', 'text'], 'value', 1),
    ...wordItems(['optional', 'one or more'], 'keyword', 2),
  ];
}

function verbPatternItems(context: Context): CompletionItem[] {
  return namesOf(context.module, 'verbs').map((verb) => {
    const [action] = actionsNamed(context.module, verb);
    return item('action', verb, action && readingOf(action));
  });
}

function replaceableItems(context: Context): CompletionItem[] {
  return context.module.closure.flatMap((scope) =>
    [...scope.rules].flatMap(([name, statement]) =>
      scope.id === context.module.id ? [] : item('rule', name, statement.label?.value),
    ),
  );
}

function protocolItems(context: Context): CompletionItem[] {
  const own = context.line.owners[0]?.statement;
  return context.module.visible.flatMap((scope) =>
    [...scope.protocols].flatMap((name) => {
      const declared = protocolNamed(context.checked, context.module, name);
      return declared?.statement === own ? [] : item('protocol', name, declared?.statement.label?.value);
    }),
  );
}

function relationAt(words: readonly Word[]): 'has' | 'takes' | 'allergic to' | undefined {
  const [first, second] = words;
  if (first?.text === 'has' || first?.text === 'takes') return first.text;
  return first?.text === 'allergic' && second?.text === 'to' ? 'allergic to' : undefined;
}

function relationItems(kind: Kind, relation: 'has' | 'takes' | 'allergic to'): CompletionItem[] {
  return [...kind.relations[relation]].map((value) => item('value', value, spoken(relation)));
}

function kindOfOwner(context: Context): Kind | undefined {
  const owner = context.line.owners.at(-1)?.statement;
  if (owner?.type === 'entry') {
    const name = owner.kind ?? owner.group;
    return kindNamed(context.module, name.text);
  }
  if (owner?.type === 'thing') {
    const name = (owner.kind ?? owner.name).text;
    return entryNamed(context.module, name)?.kind ?? kindNamed(context.module, name);
  }
  return owner?.type === 'value' ? context.bearer(owner.name.text)?.kind : undefined;
}

/** Units that something on a list may be measured out in, and the words it may be counted in. */
function amountUnitItems(context: Context, one: boolean): Items {
  const names: readonly DimensionName[] = ['volume', 'mass', 'length'];
  const measured = unitItems(names.map((name) => dimension(name)));
  const [first, ...others] = measured;
  const counted = declaredUnitItems(context.module, (unit) => unit.dimension.key.startsWith('count'), 1, one);
  return [...(first ? [first] : []), ...counted, ...others.map((one) => ({ ...one, rank: one.rank + counted.length }))];
}

function sourceFactItems(context: Context): Items {
  if (context.line.words.length > 0) return [];
  const given = new Set(context.line.others.flatMap((other) => (other.type === 'value' ? [other.name.text] : [])));
  return wordItems(
    ['by', 'year', 'identifier', 'strength'].filter((word) => !given.has(word)),
    'property',
  );
}

function caseItems(context: Context, owner: Extract<Statement, { type: 'case' }>): Items {
  const { line, module } = context;
  const given = new Set(line.others.flatMap((other) => (other.type === 'value' ? [other.name.text] : [])));
  const of = owner.of && protocolNamed(context.checked, module, owner.of.text);
  const facts = of && context.checked.facts(of.file)?.protocols.find((other) => other.statement.id === of.statement.id);
  const [first] = line.words;
  const finding = first && findingNamed(module, first.text);
  if (finding) return [...finding.values].map(([value, label]) => item('value', value, label));
  if (first) return [];
  const things = [...(facts?.context.things.byName.values() ?? [])].filter(({ group }) => group === 'given');
  return [
    ...things.filter(({ name }) => !given.has(name)).map((thing) => item('thing', thing.name, thing.kind.label)),
    ...namesOf(module, 'findings').flatMap((name) =>
      given.has(name) ? [] : item('finding', name, findingNamed(module, name)?.label, 1),
    ),
  ];
}

function notYet<Word extends { readonly word: string }>(
  words: readonly Word[],
  others: readonly Statement[],
  often: readonly string[],
): readonly Word[] {
  const said = new Set(others.map(({ type }) => type as string));
  return words.filter(({ word }) => {
    const [first = ''] = word.split(' ');
    return often.includes(first) || !said.has(first === 'source' ? 'source reference' : first);
  });
}

function dimensionOfType(rest: readonly Word[]) {
  for (let length = 4; length > 0; length--) {
    const found = dimensionNamed(
      rest
        .slice(1, 1 + length)
        .map(({ text }) => text)
        .join(' '),
    );
    if (found) return found;
  }
  return undefined;
}
