import { type Relation, words as wordList } from '@curette/grammar';
import { dimension, dimensionNamed } from '@curette/shared';
import { spoken } from '../as-written.ts';
import { slotsOf } from '../surroundings.ts';
import { type Context, propertyItems } from './context.ts';
import { type CompletionItem, item, kindItems, unitItems, wordItems } from './items.ts';
import type { Word } from './line.ts';

const RELATIONS: readonly Relation[] = ['has', 'takes', 'allergic to'];

/**
 * What may be written next in a condition or a value: a name, what may be asked about it, or what it may be.
 * @param written the words of the expression so far
 */
export function expressionItems(context: Context, written: readonly Word[]): readonly CompletionItem[] {
  const { line } = context;
  if (line.path !== undefined)
    return [
      ...context.propertiesOfPath(() => true),
      ...wordItems([...wordList.values['end of a range'], ...wordList.values['part of a size']], 'property', 1),
    ];
  const last = written.at(-1);
  if (!last || ['and', 'or', 'not', ',', '(', '<', '<=', '>', '>=', '=', '+', '-', '*', '/'].includes(last.text))
    return [...nameItems(context), ...wordItems(wordList.functions, 'keyword', 3)];
  if (last.sort === 'number') {
    const compared = lastName(written);
    const type = compared === undefined ? undefined : propertyNamed(context, compared);
    const wanted = type?.form === 'quantity' ? dimensionNamed(type.dimension) : undefined;
    return unitItems([wanted ?? dimension('time')]);
  }
  const before = written.at(-2);
  const relation = RELATIONS.find((other) => other === last.text || (other === 'allergic to' && last.text === 'to'));
  if (relation) {
    const subject = relation === 'allergic to' ? written.at(-3) : before;
    const kind = subject && context.bearer(pathBehind(written, subject))?.kind;
    return [...(kind?.relations[relation] ?? [])].map((value) => item('value', value, `${relation} …`));
  }
  if (last.text === 'allergic') return wordItems(['to']);
  if (last.text === 'is' || (last.text === 'not' && before?.text === 'is')) {
    const subject = lastName(written);
    const kind = subject === undefined ? undefined : context.bearer(subject)?.kind;
    return [
      ...stateItems(context, subject),
      // What a step waits for is a state; what a rule asks may be a kind.
      ...(line.container === 'steps' ? [] : kindItems(context.module, (other) => other !== kind, 2)),
      ...(last.text === 'is' ? wordItems(['not'], 'keyword', 3) : []),
    ];
  }
  if (last.text === 'for' || last.text === 'within') return nameItems(context, 1);
  // Behind a name: what may be asked of it.
  const path = lastName(written);
  const bearer = path === undefined ? undefined : context.bearer(path);
  const afterState = before !== undefined && (before.text === 'is' || bearer === undefined);
  if (!bearer) return wordItems(afterState ? ['for', 'and', 'or'] : ['and', 'or'], 'keyword', 1);
  const asked = RELATIONS.filter((other) => bearer.kind && bearer.kind.relations[other].size > 0);
  return [
    ...(line.container === 'action' ? stateItems(context, path) : []),
    ...wordItems(asked, 'keyword'),
    ...wordItems(['is'], 'keyword', asked.length > 0 ? 1 : 0),
    ...wordItems(['and', 'or'], 'keyword', 2),
  ];
}

/** Names that an expression here may begin with. */
export function nameItems(context: Context, rank = 0): CompletionItem[] {
  const top = context.around.path[0]?.statement;
  if (top?.type === 'action' || top?.type === 'procedure' || top?.type === 'rule')
    return [...new Map(slotsOf(context.module, top).map(({ model }) => [model.name, model])).values()].map((slot) =>
      item('slot', slot.name, spoken(slot.kindWord), rank),
    );
  if (top?.type === 'kind') {
    const kind = top.name && context.around.named(top.name.text)?.kind;
    const patients = kindItems(context.module, (other) => RELATIONS.some((r) => other.relations[r].size > 0), rank);
    return [...propertyItems(kind, () => true).map((one) => ({ ...one, rank })), ...patients];
  }
  if (top?.type === 'entry')
    return kindItems(context.module, (other) => RELATIONS.some((r) => other.relations[r].size > 0), rank);
  return context.things().map((thing) => item('thing', thing.name, thing.entry?.label ?? thing.kind.label, rank));
}

/** The states that what a path leads to may be in; of a thing, those first that it can be in here. */
export function stateItems(context: Context, path: string | undefined): CompletionItem[] {
  const bearer = path === undefined ? undefined : context.bearer(path);
  const { kind, thing } = bearer ?? {};
  return (kind?.tracks ?? []).flatMap((track) => {
    const now = new Set(
      thing
        ? context
            .standing()
            ?.of(thing, track)
            .map(({ state }) => state)
        : [],
    );
    return [...track.states].map((state) =>
      item('state', state, now.has(state) ? 'so it is here' : undefined, now.has(state) || now.size === 0 ? 0 : 1),
    );
  });
}

/** The last path written, dots included. */
function lastName(written: readonly Word[]): string | undefined {
  for (let at = written.length - 1; at >= 0; at--) {
    const word = written[at];
    if (word?.sort === 'name' && !RESERVED.has(word.text)) return pathBehind(written.slice(0, at + 1), word);
  }
  return undefined;
}

function pathBehind(written: readonly Word[], last: Word): string {
  let at = written.lastIndexOf(last);
  let path = last.text;
  while (written[at - 1]?.text === '.' && written[at - 2]?.sort === 'name') {
    at -= 2;
    path = `${written[at]?.text}.${path}`;
  }
  return path;
}

function propertyNamed(context: Context, path: string) {
  const names = path.split('.');
  const last = names.pop();
  const kind = names.length > 0 ? context.bearer(names.join('.'))?.kind : undefined;
  return last === undefined ? undefined : kind?.properties.get(last)?.type;
}

const RESERVED: ReadonlySet<string> = new Set([...wordList.reserved, 'within']);
