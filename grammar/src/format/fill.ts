/** Breaks a head that is too long for its line: as late as possible, before what begins the farthest part of the sentence. */
import type { Word } from './lines.ts';

/** A line longer than this is broken where the language allows it. */
export const widest = 112;
/** How far the rest of a broken line is indented, from where it began: further than a block below it. */
export const further = 4;

export interface Fit {
  readonly indent: number;
  /** what stands behind the last word */
  readonly end: string;
  /** width of the left column; undefined for a line that is in no table */
  readonly column: number | undefined;
  /** how many words stand in the left column */
  readonly key: number;
}

/** The words on one line. */
export function textOf(words: readonly Word[]): string {
  return words.map(({ text, spaced }) => (spaced ? ` ${text}` : text)).join('');
}

/** The lines that the words take, indented. */
export function fill(words: readonly Word[], fit: Fit): string[] {
  const out: string[] = [];
  let from = 0;
  while (from < words.length) {
    const to = lineEnd(words, from, fit);
    out.push(lineOf(words, from, to, fit));
    const [first, ...others] = words[to]?.comments ?? [];
    const rest = ' '.repeat(fit.indent + further);
    if (first !== undefined && !first.own) out[out.length - 1] += ` ${first.text}`;
    else if (first !== undefined) out.push(rest + first.text);
    for (const comment of others) out.push(rest + comment.text);
    from = to;
  }
  const padding = words.length === fit.key && fit.column !== undefined ? fit.column - textOf(words).length : 0;
  out[out.length - 1] += ' '.repeat(padding) + fit.end;
  return out;
}

/** Index of the word that begins the next line. */
function lineEnd(words: readonly Word[], from: number, fit: Fit): number {
  let width = fit.indent + (from === 0 ? 0 : further);
  let best: number | undefined;
  for (let at = from; at < words.length; at++) {
    const word = words[at] as Word;
    if (at > from) {
      if (word.parted || word.comments.length > 0) {
        if (width <= widest || best === undefined) return at;
        return best;
      }
      if (word.breaks > 0 && (best === undefined || (word.breaks >= (words[best] as Word).breaks && width <= widest)))
        best = at;
    }
    width += space(words, at, from, fit) + word.text.length;
    const last = at === words.length - 1;
    if (width + (last ? fit.end.length : 0) > widest && best !== undefined) return best;
  }
  return words.length;
}

function lineOf(words: readonly Word[], from: number, to: number, fit: Fit): string {
  let line = ' '.repeat(fit.indent + (from === 0 ? 0 : further));
  for (let at = from; at < to; at++) {
    line += ' '.repeat(space(words, at, from, fit)) + (words[at] as Word).text;
  }
  return line;
}

/** How many spaces stand before a word on a line that begins with another. */
function space(words: readonly Word[], at: number, from: number, { column, key }: Fit): number {
  const word = words[at];
  if (at === from || word === undefined || !word.spaced) return 0;
  if (at !== key || from > 0 || column === undefined) return 1;
  return column - textOf(words.slice(0, key)).length + 1;
}
