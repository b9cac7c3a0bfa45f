import type { SyntaxTree } from '@curette/grammar';
import { offsetsOf } from '../analysis/locate.ts';
import { isLibrary } from '../analysis/use-path.ts';
import type { FileId, Place } from '../problems/problem.ts';

/** A file's text and tree, as the checker read it. */
export interface TextOfFile {
  readonly text: string;
  readonly tree: SyntaxTree;
}

/** Where a place is in its file; lines and columns count from 1, columns and offsets in UTF-16 units. */
export interface Position {
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
  readonly start: number;
  readonly end: number;
}

/** Undefined when the file has changed since and the line is gone. */
export function positionOf(file: TextOfFile, place: Place): Position | undefined {
  const offsets = offsetsOf(file.tree, place);
  if (!offsets) return undefined;
  const start = Math.min(offsets.start, file.text.length);
  const end = Math.max(start, Math.min(offsets.end, file.text.length));
  const starts = lineStarts(file);
  const line = lineAt(starts, start);
  const endLine = lineAt(starts, end);
  return {
    line: line + 1,
    column: start - (starts[line] ?? 0) + 1,
    endLine: endLine + 1,
    endColumn: end - (starts[endLine] ?? 0) + 1,
    start,
    end,
  };
}

/** A line of a file without its ending; lines count from 1. */
export function lineOf(file: TextOfFile, line: number): string {
  const starts = lineStarts(file);
  const start = starts[line - 1] ?? file.text.length;
  const end = starts[line] ?? file.text.length;
  return file.text.slice(start, end).replace(/\r?\n$/, '');
}

/** How a file is named to people: its path; a file of the library as `use` writes it. */
export function fileName(id: FileId): string {
  return isLibrary(id) ? id.slice('library:'.length).replace(/\.curette$/, '') : id;
}

/** A name as a person says it. */
export function plain(name: string): string {
  return name.replaceAll('_', ' ');
}

/** First letter large. */
export function sentence(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/**
 * A text in which every character shows: control characters, which a terminal would obey and a page would swallow, as their
 * pictures; what turns the direction of writing around, so that a line reads otherwise than it is, as a replacement mark.
 */
export function visible(text: string): string {
  return text.replace(HIDDEN, (character) => {
    const code = character.codePointAt(0) ?? 0;
    if (code < 0x20) return String.fromCodePoint(0x2400 + code);
    return code === 0x7f ? '\u2421' : '\ufffd';
  });
}

// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for.
const HIDDEN = /[\u0000-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\u2028\u2029\ufeff]/g;

const known = new WeakMap<SyntaxTree, readonly number[]>();

function lineStarts(file: TextOfFile): readonly number[] {
  const kept = known.get(file.tree);
  if (kept) return kept;
  const starts = [0];
  for (let at = file.text.indexOf('\n'); at !== -1; at = file.text.indexOf('\n', at + 1)) starts.push(at + 1);
  known.set(file.tree, starts);
  return starts;
}

/** Index of the line that holds an offset. */
function lineAt(starts: readonly number[], offset: number): number {
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((starts[middle] ?? 0) <= offset) low = middle;
    else high = middle - 1;
  }
  return low;
}
