import { type Statement, words as wordList } from '@curette/grammar';
import { type DimensionName, dimension, dimensionNamed, formatSizeSource, formatSource } from '@curette/shared';
import { findingsAsked } from '../../analysis/cases/lines.ts';
import { descendsFrom } from '../../analysis/kinds/subkind.ts';
import { valueWords } from '../../analysis/kinds/value-words.ts';
import type { Kind, Property, Value } from '../../analysis/model.ts';
import { entryNamed, findingNamed, kindNamed } from '../../analysis/names/resolve.ts';
import type { Thing } from '../../analysis/protocol/things.ts';
import { spoken } from '../as-written.ts';
import { numberedTooth, toothWords } from '../hover/other-numbers.ts';
import { citationOf } from '../hover/values.ts';
import { protocolNamed } from '../surroundings.ts';
import { type Context, propertyItems } from './context.ts';
import { expressionItems } from './expressions.ts';
import { type Form, formOf, gap } from './form.ts';
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
      return type.values.map(({ text }) => item('value', text, toothDetail(context, property, text)));
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

/** The same tooth in the other numberings. */
function toothDetail({ checked }: Context, { ground }: Property, number: string): string | undefined {
  const tooth = numberedTooth(citationOf(checked, ground), number);
  return tooth && toothWords(tooth, checked.teeth?.() ?? 'iso');
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
  const [first, ...rest] = line.words;
  const home = of && module.module(of.file);
  const finding = first && (findingNamed(module, first.text) ?? (home && findingNamed(home, first.text)));
  if (first?.text === 'start') return [];
  if (finding && rest.length === 0) return [...finding.values].map(([value, label]) => item('value', value, label));
  const filled = first && facts?.context.things.byName.get(first.text);
  if (filled) return bareValueItems(context, filled, rest);
  if (first) return [];
  const asked = new Map(facts ? findingsAsked(facts) : []);
  for (const name of namesOf(module, 'findings')) {
    const known = asked.size === 0 ? findingNamed(module, name) : undefined;
    if (known) asked.set(name, known);
  }
  const start = given.has('start') || line.others.some(({ type }) => type === 'start');
  const things = [...(facts?.context.things.byName.values() ?? [])].filter(({ group }) => group === 'given');
  return [
    ...things
      .filter(({ name }) => !given.has(name))
      .map((thing) => ({ ...item('thing', thing.name, givenWords(thing)), form: valueForm(thing) })),
    ...[...asked.values()].flatMap((one) =>
      given.has(one.name)
        ? []
        : {
            ...item('finding', one.name, `${one.label}: ${[...one.values.values()].join(', ')}`, 1),
            form: [`${one.name} `, gap(1, [...one.values.keys()])],
          },
    ),
    ...(start
      ? []
      : [{ ...item('keyword', 'start', 'The day of the first visit.', 2), form: formOf('start [2027-01-11]') }]),
  ];
}

/** What the protocol gives of a thing: `socket: depth 9–12 mm`. */
function givenWords({ kind, values }: Thing): string {
  const stated = [...values.values()].map(
    ({ name, values: held }) => `${spoken(name)} ${held.map(valueWords).join(', ')}`,
  );
  return stated.length > 0 ? `${kind.label}: ${stated.join(', ')}` : kind.label;
}

/** A thing of a case with a gap for each value that the protocol leaves open. */
function valueForm({ name, values }: Thing): Form {
  const open = [...values.values()].filter(
    ({ values: [first] }) => first?.type === 'quantity' || first?.type === 'size',
  );
  if (open.length === 0) return [`${name} { `, gap(1, []), ' }'];
  const parts = open.flatMap((value, at) => [
    `${at === 0 ? '' : ', '}${value.name} `,
    gap(at + 1, [value.values.map(sourceWords).join(', ')]),
  ]);
  return [`${name} { `, ...parts, ' }'];
}

function sourceWords(value: Value): string {
  if (value.type === 'quantity') return formatSource(value.quantity);
  return value.type === 'size' ? formatSizeSource(value.sides) : valueWords(value);
}

/** A value without its property's name, where only one can have it; after a number its units. */
function bareValueItems(context: Context, thing: Thing, rest: readonly Word[]): Items {
  const properties = [...thing.kind.properties.values()];
  const last = rest.at(-1);
  if (last?.sort === 'number') {
    const wanted = properties.flatMap(({ type }) =>
      type?.form === 'quantity' ? (dimensionNamed(type.dimension) ?? []) : [],
    );
    return unitItems([...new Set(wanted)]);
  }
  if (last) return [];
  return properties.flatMap((property) =>
    property.type?.form === 'one of' || property.type?.form === 'yes or no' || property.type?.form === 'kind'
      ? (valueItems(context, property, rest) ?? [])
      : [],
  );
}
