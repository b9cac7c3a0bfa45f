import type { LineWord } from '@curette/grammar';
import { type Dimension, exactly, formatQuantity, libraryFiles, type Unit, unitsOf } from '@curette/shared';
import { COMMON_PRACTICE } from '../../analysis/kinds/declarations.ts';
import { descendsFrom, fitsKind, isKind } from '../../analysis/kinds/subkind.ts';
import type { Kind } from '../../analysis/model.ts';
import { type Module, type NameSort, visibleNames } from '../../analysis/names/module.ts';
import { entryNamed, findingNamed, kindNamed, pauseNamed, sourceNamed } from '../../analysis/names/resolve.ts';
import { once } from '../../analysis/once.ts';
import { usePathTo } from '../../analysis/use-path.ts';
import { opening } from '../hover/file.ts';
import type { Form } from './form.ts';

export type ItemSort =
  | 'keyword'
  | 'action'
  | 'thing'
  | 'place'
  | 'kind'
  | 'entry'
  | 'preposition'
  | 'unit'
  | 'role'
  | 'source'
  | 'property'
  | 'state'
  | 'value'
  | 'file'
  | 'finding'
  | 'pause'
  | 'rule'
  | 'protocol'
  | 'slot';

/** One thing that may be written here. */
export interface CompletionItem {
  readonly label: string;
  readonly sort: ItemSort;
  /** a few words: what it is, or why it does not fit yet */
  readonly detail: string | undefined;
  /** 0 for what fits best */
  readonly rank: number;
  /** the whole line or step that may be written instead of the label */
  readonly form?: Form;
  /** the label alone would be no text of the language: the item is its form, or is not offered */
  readonly formOnly?: true;
}

export function item(sort: ItemSort, label: string, detail: string | undefined = undefined, rank = 0): CompletionItem {
  return { label, sort, detail, rank };
}

export function lineWordItems(words: readonly LineWord[], rank = 0): CompletionItem[] {
  return words.map(({ word, says }) => item('keyword', word, says, rank));
}

export function wordItems(words: readonly string[], sort: ItemSort = 'keyword', rank = 0): CompletionItem[] {
  return words.map((word) => item(sort, word, undefined, rank));
}

/** Units in which something of a dimension is written, the most usual first. */
export function unitItems(dimensions: readonly Dimension[]): CompletionItem[] {
  const items: CompletionItem[] = [];
  for (const dimension of dimensions)
    for (const unit of unitsOf(dimension)) items.push(item('unit', unit.canonical, shownAs(unit), items.length));
  return items;
}

/** The counting words that are declared, and units declared by a value of one of the dimensions. */
export function declaredUnitItems(
  module: Module,
  fits: (unit: Unit) => boolean,
  from: number,
  one = false,
): CompletionItem[] {
  const items: CompletionItem[] = [];
  const seen = new Set<Unit>();
  for (const [name, unit] of module.units()) {
    if (seen.has(unit) || !fits(unit)) continue;
    seen.add(unit);
    const what = unit.dimension.key.startsWith('count') ? 'counted' : unit.dimension.name;
    items.push(item('unit', (one ? unit.label?.one : unit.label?.many) ?? name, what, from + items.length));
  }
  return items;
}

function shownAs(unit: Unit): string | undefined {
  const shown = formatQuantity(exactly(2, unit)).replace(/^2\s?/, '');
  return shown === unit.canonical ? unit.dimension.name : `${shown}, ${unit.dimension.name}`;
}

/** Kinds under one, and what the catalogue has of them. */
export function catalogueItems(module: Module, wanted: Kind | string | undefined, rank = 0): CompletionItem[] {
  const fits = (kind: Kind) =>
    wanted === undefined ? true : typeof wanted === 'string' ? descendsFrom(kind, wanted) : fitsKind(kind, wanted);
  return [
    ...namesOf(module, 'entries').flatMap((name) => {
      const entry = entryNamed(module, name);
      return entry && fits(entry.kind) ? item('entry', name, entry.label, rank) : [];
    }),
    ...kindItems(module, fits, rank + 1),
  ];
}

export function kindItems(module: Module, fits: (kind: Kind) => boolean, rank = 0): CompletionItem[] {
  return namesOf(module, 'kinds').flatMap((name) => {
    const kind = kindNamed(module, name);
    return kind && fits(kind) ? item('kind', name, kind.label, rank) : [];
  });
}

export function entryItems(module: Module, wanted: Kind, sort: ItemSort, rank = 0): CompletionItem[] {
  return namesOf(module, 'entries').flatMap((name) => {
    const entry = entryNamed(module, name);
    return entry && fitsKind(entry.kind, wanted) ? item(sort, name, entry.label, rank) : [];
  });
}

export function kindsUnder(kind: Kind): (other: Kind) => boolean {
  return (other) => isKind(other, kind);
}

export function roleItems(module: Module, except: ReadonlySet<string> = new Set()): CompletionItem[] {
  return namesOf(module, 'entries').flatMap((name) => {
    const entry = entryNamed(module, name);
    return entry && descendsFrom(entry.kind, 'role') && !except.has(name) ? item('role', name, entry.label) : [];
  });
}

export function sourceItems(module: Module): CompletionItem[] {
  return [
    ...namesOf(module, 'sources').map((name) => item('source', name, sourceNamed(module, name)?.citation)),
    item('source', COMMON_PRACTICE, 'no published source', 1),
  ];
}

export function pauseItems(module: Module): CompletionItem[] {
  return namesOf(module, 'pauses').map((name) => item('pause', name, pauseNamed(module, name)?.label));
}

export function findingItems(module: Module): CompletionItem[] {
  return namesOf(module, 'findings').map((name) => {
    const finding = findingNamed(module, name);
    return item('finding', name, finding && `${finding.label}: ${[...finding.values.values()].join(', ')}`);
  });
}

/** Files that a `use` may bring in and that are not in use yet. */
export function fileItems(module: Module, ids: readonly string[]): CompletionItem[] {
  const used = new Set(module.uses.map(({ target }) => target));
  return ids
    .filter((id) => id !== module.id && !used.has(id))
    .map((id) => item('file', usePathTo(module.id, id), shippedLines().get(id)));
}

/** What each file of the library says of itself first, in its first sentence. */
const shippedLines = once(
  () =>
    new Map(
      libraryFiles.map(({ path, text }) => [
        `library:${path}`,
        (opening(text)[0] ?? 'shipped library').replace(/\s*Not covered:.*$/s, '').replace(/(?<=[.:])\s.*$/s, ''),
      ]),
    ),
);

export function namesOf(module: Module, sort: NameSort | 'verbs'): string[] {
  return [...visibleNames(module, sort)];
}
