import type { FileId } from '../problems/problem.ts';
import type { Checked, Stretch } from './checked.ts';
import { type Context, contextOf } from './completion/context.ts';
import {
  actionLevelItems,
  fileLevelItems,
  kindLevelItems,
  pauseLevelItems,
  ruleLevelItems,
} from './completion/declarations.ts';
import { documentation, fileDocumentation } from './completion/documentation.ts';
import { figureItems } from './completion/figures.ts';
import { type CompletionItem, fileItems } from './completion/items.ts';
import { lineAt } from './completion/line.ts';
import { isRoom, withForms } from './completion/line-forms.ts';
import {
  laneItems,
  propertyLevelItems,
  protocolLevelItems,
  teamItems,
  thingListItems,
} from './completion/protocols.ts';
import { optionItems, stepItems } from './completion/steps.ts';

/** What may be written at the cursor. */
export interface Completion {
  /** the word that is being typed, which an item stands in for */
  readonly typed: Stretch;
  /** best first */
  readonly items: readonly CompletionItem[];
  /** what is told of one of them when somebody wants to read more, in markdown; may be empty */
  readonly tell: (item: CompletionItem) => string;
}

/**
 * Only what fits: the words that may begin a line here, what the slot takes by its kind, and first of all what is in the state that the
 * step needs.
 * @param files ids of the files that a `use` may bring in, the library's aside
 */
export function completion(checked: Checked, file: FileId, offset: number, files: () => readonly FileId[]): Completion {
  const nothing: Completion = { typed: { file, start: offset, end: offset }, items: [], tell: () => '' };
  const facts = checked.facts(file);
  if (!facts?.module) return nothing;
  const use = usePathAt(facts.file.text, offset);
  if (use !== undefined) {
    const ids = [...files(), ...checked.snapshot().library];
    return {
      typed: { file, start: use, end: offset },
      items: fileItems(facts.module, ids),
      tell: (item) => fileDocumentation(checked, file, item),
    };
  }
  const line = lineAt(facts.file, offset);
  if (!line) return nothing;
  const context = contextOf(checked, facts, facts.module, line);
  const offered = sorted(withForms(context, itemsOf(context)));
  // A whole line would run into what stands behind the cursor.
  const items = isRoom(facts.file.text, offset) ? offered : offered.flatMap(withoutForm);
  return { typed: { file, start: line.start, end: offset }, items, tell: (item) => documentation(context, item) };
}

function itemsOf(context: Context): readonly CompletionItem[] {
  switch (context.line.container) {
    case 'file':
      return fileLevelItems(context);
    case 'kind':
      return kindLevelItems(context);
    case 'action':
      return actionLevelItems(context);
    case 'rule':
      return ruleLevelItems(context);
    case 'pause':
      return pauseLevelItems(context);
    case 'protocol':
      return protocolLevelItems(context);
    case 'things':
      return thingListItems(context);
    case 'properties':
    case 'source':
    case 'case':
    case 'figure':
      return propertyLevelItems(context);
    case 'figures':
      return figureItems(context);
    case 'team':
      return teamItems(context);
    case 'steps':
      return stepItems(context);
    case 'options':
      return optionItems(context);
    case 'lanes':
      return laneItems(context);
    case 'finding':
      return [];
    default:
      return context.line.container satisfies never;
  }
}

/** The words alone; what is nothing but its form is left out. */
export function withoutForm({ form, formOnly, ...item }: CompletionItem): readonly CompletionItem[] {
  return form && formOnly ? [] : [item];
}

/** Where the path that is typed after `use` starts. */
function usePathAt(text: string, offset: number): number | undefined {
  const line = text.slice(text.lastIndexOf('\n', offset - 1) + 1, offset);
  const path = /^\s*use\s+(\S*)$/.exec(line)?.[1];
  return path === undefined ? undefined : offset - path.length;
}

/** The best of each name, best first; among equals as they were offered. */
function sorted(items: readonly CompletionItem[]): CompletionItem[] {
  const best = new Map<string, CompletionItem>();
  for (const one of items) {
    const known = best.get(one.label);
    if (!known || one.rank < known.rank) best.set(one.label, one);
  }
  return [...best.values()].sort((a, b) => a.rank - b.rank);
}
