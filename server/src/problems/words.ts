import type { Measure } from '@curette/grammar';
import { formatNumber, nearestFew } from '@curette/shared';
import { setWords } from '../analysis/kinds/value-words.ts';
import type { SetNote } from '../analysis/model.ts';
import type { Way } from '../analysis/protocol/flow-words.ts';
import { usePathTo } from '../analysis/use-path.ts';
import type { FileId, Mend, Place } from './problem.ts';

/** A name as a person says it. */
export function plain(name: string): string {
  return name.replaceAll('_', ' ');
}

/** "a", "a or b", "a, b or c" */
export function listWords(items: readonly string[], joint: 'and' | 'or' = 'or'): string {
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

/** How a thing stands, in a sentence or two: "When the wall is lost, "pack" is in place since "place pack"." */
export function waysWords(thing: string, ways: readonly Way[], always: boolean): string {
  const [first] = ways;
  if (!first) return '';
  // On every path, and in one state: how it came there on each does not matter.
  const alike = always && ways.length > 1 && ways.every((way) => way.state === first.state);
  const told = alike ? [{ ...first, when: '', since: undefined }] : ways;
  return told
    .map((way) => {
      const since = way.since ? ` since "${way.since}"` : '';
      const still = way.since || alike ? '' : 'still ';
      const path = always || way.when !== '' ? '' : ' on some path';
      return `${sentence(`${whenHead(way.when)}"${thing}" is ${still}${plain(way.state)}${since}${path}`)}.`;
    })
    .join(' ');
}

/** A number with its unit, as it is written in a protocol. */
export function measureSource({ value, unit }: Measure): string {
  const number = formatNumber(value, MOST_DIGITS);
  return unit ? `${number} ${unit.text}` : number;
}

/** A range of two measures, as it is written in a protocol: a unit they share stands once. */
export function rangeSource(low: Measure, high: Measure): string {
  const alone = low.unit?.text === high.unit?.text ? { ...low, unit: undefined } : low;
  return `${measureSource(alone)}..${measureSource(high)}`;
}

/** As many as a number in a file can be kept with. */
const MOST_DIGITS = 15;

/** "dry or packed" */
export function statesWords(ways: readonly Way[]): string {
  return [...new Set(ways.map((way) => plain(way.state)))].join(' or ');
}

/** ` (ceilings: Ceilings of the leaflets)`: the sets of figures that something comes from; empty when there is none. */
export function inSets(sets: readonly SetNote[]): string {
  const words = [...new Set(sets.map(setWords))];
  return words.length > 0 ? ` (${words.join('; ')})` : '';
}

/** What could not be told, behind "It cannot be told": a condition is asked whether it holds. */
export function untold(what: string): string {
  return /^(whether|how|which) /.test(what) ? what : `whether ${what}`;
}

/** "a graft", "an implant"; what begins with a figure or is in quotes stays as it is. */
export function article(words: string): string {
  return /^[aeiou]/i.test(words) ? `an ${words}` : `a ${words}`;
}

/** A patient relation as a person says it: "has diabetes", "is allergic to latex". */
export function relationWords(relation: string): string {
  return plain(relation.startsWith('allergic to') ? `is ${relation}` : relation);
}
