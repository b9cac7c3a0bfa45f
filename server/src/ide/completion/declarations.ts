import { words as wordList } from '@curette/grammar';
import { dimension, dimensionNamed } from '@curette/shared';
import { descendsFrom } from '../../analysis/kinds/subkind.ts';
import { actionsNamed, kindNamed } from '../../analysis/names/resolve.ts';
import { readingOf } from '../as-written.ts';
import { caseForm } from './case-forms.ts';
import { type Context, propertyItems } from './context.ts';
import { expressionItems, nameItems, stateItems } from './expressions.ts';
import { groupItems, setItems } from './figures.ts';
import {
  type CompletionItem,
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
import { conditionItems, type Items, notYet, protocolItems } from './parts.ts';
import { groundItems } from './steps.ts';

/** Outside of every block. */
export function fileLevelItems(context: Context): Items {
  const { module, line } = context;
  const [first, ...rest] = line.words;
  const last = rest.at(-1);
  if (!first)
    return [
      ...lineWordItems(wordList.lines.file),
      ...caseForms(context),
      ...kindItems(module, (kind) => !descendsFrom(kind, 'patient'), 1),
    ];
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
    case 'figures':
      if (last?.text === 'of') return groupItems(context);
      return rest.length > 0 ? wordItems(['of']) : [];
    case 'apply':
      return rest.length === 0 ? setItems(context) : groundItems(context, rest);
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

/** A whole case of each protocol that can be named here: its start, a line for each given thing and each finding it asks for. */
function caseForms(context: Context): CompletionItem[] {
  return protocolItems(context).flatMap(({ label, detail }) => {
    const form = caseForm(context, label);
    return form ? [{ ...item('protocol', `case of ${label}`, detail, 1), form, formOnly: true as const }] : [];
  });
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
    if (last?.text === 'from') return groupItems(context);
    return [...wordItems(['range', 'within', 'from']), ...groundItems(context, rest)];
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
    case 'caution':
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
    case 'contraindicated':
    case 'caution':
      return conditionItems(context, rest.slice(1), rest);
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
  const pattern = [
    ...verbPatternItems(context),
    item('keyword', 'pause', 'a pause', 1),
    item('keyword', 'verify', 'a check of a property', 1),
    item('keyword', 'record', 'a record of something', 1),
    item('keyword', 'finding', 'something is found', 1),
    item('keyword', 'stop', 'a path ends', 1),
  ];
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
      return wordItems(['before', 'only after', 'or', 'where', 'first', 'last', 'in a visit', 'in the protocol']);
    case 'count':
      if (rest.length === 0) return pattern;
      return last?.sort === 'number'
        ? wordItems(['times'])
        : wordItems([
            'exactly',
            'at least',
            'at most',
            'never',
            'once',
            'times',
            'where',
            'in a visit',
            'in the protocol',
          ]);
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
