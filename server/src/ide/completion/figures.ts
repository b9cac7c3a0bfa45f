import { words as wordList } from '@curette/grammar';
import { propertiesFrom } from '../../analysis/kinds/strayed-figures.ts';
import { entryNamed, figuresNamed, kindNamed } from '../../analysis/names/resolve.ts';
import { spoken } from '../as-written.ts';
import type { Context } from './context.ts';
import { type CompletionItem, item, lineWordItems, namesOf } from './items.ts';
import type { Items } from './parts.ts';

/** In a set of figures: the entries and kinds that take something from its group. */
export function figureItems(context: Context): Items {
  const { line, module } = context;
  const owner = line.owners.at(-1)?.statement;
  const group = owner?.type === 'figures' ? owner.group?.text : undefined;
  if (line.words.length > 0 || group === undefined) return [];
  const given = new Set(line.others.flatMap((other) => (other.type === 'figure' ? [other.name.text] : [])));
  const entries = namesOf(module, 'entries').flatMap((name) => {
    const entry = entryNamed(module, name);
    return entry && !given.has(name) && propertiesFrom(entry.kind, group).length > 0
      ? item('entry', name, entry.label)
      : [];
  });
  const kinds = namesOf(module, 'kinds').flatMap((name) => {
    const kind = kindNamed(module, name);
    return kind && !given.has(name) && propertiesFrom(kind, group).length > 0 ? item('kind', name, kind.label, 1) : [];
  });
  return [...entries, ...kinds, ...lineWordItems(wordList.lines.figures, 2)];
}

/** The sets that may be applied here. */
export function setItems(context: Context): CompletionItem[] {
  const { module } = context;
  return namesOf(module, 'figures').map((name) => {
    const set = figuresNamed(module, name);
    return item('value', name, set && `${spoken(set.group)}: ${set.label}`);
  });
}

/** The groups of sets of figures that properties take their values from. */
export function groupItems(context: Context): CompletionItem[] {
  return namesOf(context.module, 'groups').map((name) => item('value', name, 'a group of sets of figures'));
}
