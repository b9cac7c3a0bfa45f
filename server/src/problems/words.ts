import { nearestFew } from '@curette/shared';
import { usePathTo } from '../analysis/use-path.ts';
import type { FileId, Mend, Place } from './problem.ts';

/** A name as a person says it. */
export function plain(name: string): string {
  return name.replaceAll('_', ' ');
}

/** "a", "a or b", "a, b or c" */
export function listWords(items: readonly string[], joint: 'and' | 'or' | 'and no' = 'or'): string {
  if (items.length <= 1) return items[0] ?? '';
  return `${items.slice(0, -1).join(', ')} ${joint} ${items.at(-1)}`;
}

/** What was likely meant by a misspelt name: a sentence for the message (empty when nothing is near) and a mend each. */
export function meant(
  name: string,
  candidates: Iterable<string>,
  place: Place,
): { readonly sentence: string; readonly mends: readonly Mend[] } {
  const near = nearestFew(name, candidates, 3);
  return {
    sentence: near.length > 0 ? ` Was ${listWords(near.map((other) => `"${other}"`))} meant?` : '',
    mends: near.map((other) => ({
      title: `Change to "${other}"`,
      edits: [{ type: 'replace', place, text: other }],
    })),
  };
}

/** The same for a name that a library file declares which is not in use here. */
export function meantOrElsewhere(
  name: string,
  candidates: Iterable<string>,
  library: FileId | undefined,
  place: Place,
): { readonly sentence: string; readonly mends: readonly Mend[] } {
  if (library === undefined) return meant(name, candidates, place);
  const path = usePathTo(place.file, library);
  return {
    sentence: ` It is declared in ${path}, which this file does not use.`,
    mends: [{ title: `Add "use ${path}"`, edits: [{ type: 'add use', file: place.file, path }] }],
  };
}

/** "when the wall is lost, " at the head of a sentence; empty when it is so on every path. */
export function whenHead(when: string): string {
  return when === '' ? '' : `When ${when}, `;
}

/** First letter large. */
export function sentence(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
