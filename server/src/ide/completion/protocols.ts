import { type Statement, words as wordList } from '@curette/grammar';
import { type DimensionName, dimension, dimensionNamed } from '@curette/shared';
import { descendsFrom } from '../../analysis/kinds/subkind.ts';
import type { Kind, Property } from '../../analysis/model.ts';
import { entryNamed, findingNamed, kindNamed } from '../../analysis/names/resolve.ts';
import { spoken } from '../as-written.ts';
import { protocolNamed } from '../surroundings.ts';
import { type Context, propertyItems } from './context.ts';
import { expressionItems } from './expressions.ts';
import {
  type CompletionItem,
  catalogueItems,
  declaredUnitItems,
  item,
  kindItems,
  lineWordItems,
  namesOf,
  roleItems,
  unitItems,
  wordItems,
} from './items.ts';
import type { Word } from './line.ts';
import { conditionItems, type Items, notYet, protocolItems } from './parts.ts';
import { groundItems, waitItems } from './steps.ts';

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
  const set = owner?.type === 'figure' ? line.owners.at(-2)?.statement : undefined;
  const group = set?.type === 'figures' ? set.group?.text : undefined;
  const [first, ...rest] = line.words;
  if (!first) {
    const given = new Set(line.others.flatMap((other) => (other.type === 'value' ? [other.name.text] : [])));
    const relations = (['has', 'takes', 'allergic to'] as const).filter(
      (relation) => kind.relations[relation].size > 0,
    );
    return [
      ...propertyItems(kind, ({ name, from }) => name !== 'amount' && !given.has(name) && from === group),
      ...(owner?.type === 'figure' ? [] : wordItems(relations, 'keyword', 1)),
      ...(owner?.type === 'entry' ? wordItems(['contraindicated when', 'caution when'], 'keyword', 2) : []),
    ];
  }
  const relation = relationAt(line.words);
  if (relation) return relationItems(kind, relation);
  if (first.text === 'contraindicated' || first.text === 'caution') return conditionItems(context, rest.slice(1), rest);
  const property = kind.properties.get(first.text);
  if (!property) return [];
  const further = property.type?.form === 'size' ? [item('keyword', 'by', 'one more side')] : [];
  return valueItems(context, property, rest) ?? [...further, ...groundItems(context, rest)];
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
  if (owner?.type === 'figure')
    return entryNamed(context.module, owner.name.text)?.kind ?? kindNamed(context.module, owner.name.text);
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
