import { type LineWord, words } from '@curette/grammar';
import type { FileId } from '../problems/problem.ts';
import type { Checked, Stretch } from './checked.ts';
import type { Meaning } from './meaning.ts';
import { referencesIn } from './meant-words.ts';
import { containerOf, type Surroundings, surroundingsAt } from './surroundings.ts';

/** The word under the cursor and what it stands for. */
export interface SymbolAt extends Stretch {
  readonly meaning: Meaning;
  readonly around: Surroundings;
}

/** Undefined between words, in remarks and quoted texts, and for words that stand for nothing known. */
export function symbolAt(checked: Checked, file: FileId, offset: number): SymbolAt | undefined {
  const around = surroundingsAt(checked, file, offset);
  const innermost = around?.path.at(-1);
  if (!around || !innermost) return undefined;
  const at = offset - innermost.start;
  const here = referencesIn(around)
    .filter(({ start, end }) => start <= at && at <= end)
    .sort((a, b) => a.end - a.start - (b.end - b.start));
  for (const { start, end, meaning } of here) {
    const meant = meaning();
    if (meant) return { file, start: innermost.start + start, end: innermost.start + end, meaning: meant, around };
  }
  return here.length > 0 ? undefined : keywordAt(around, file, offset);
}

function keywordAt(around: Surroundings, file: FileId, offset: number): SymbolAt | undefined {
  const { statement, start } = around.path.at(-1) ?? {};
  if (!statement || start === undefined) return undefined;
  const { text } = around.file;
  const head = text.slice(start + statement.head.start, start + statement.head.end);
  const from = start + statement.head.start;
  const first = words.lines[containerOf(around.path)]
    .filter(({ word }) => startsWithWord(head, word))
    .sort((a, b) => b.word.length - a.word.length)[0];
  if (first && offset >= from && offset <= from + first.word.length)
    return { file, start: from, end: from + first.word.length, meaning: { type: 'word', word: first }, around };
  const word = wordAt(head, offset - from);
  const clause: LineWord | undefined = word && words.clauses.find((other) => other.word === word.text);
  if (!word || !clause) return undefined;
  return { file, start: from + word.start, end: from + word.end, meaning: { type: 'word', word: clause }, around };
}

function startsWithWord(head: string, word: string): boolean {
  return head.startsWith(word) && !/^[\p{L}\d_]/u.test(head.slice(word.length));
}

/** The word around a place in a line, quoted texts left out. */
function wordAt(head: string, at: number): { text: string; start: number; end: number } | undefined {
  for (const match of head.matchAll(/"(?:[^"\\]|\\.)*"?|[\p{L}_][\p{L}\d_]*/gu)) {
    if (match.index > at) return undefined;
    const end = match.index + match[0].length;
    if (at <= end && !match[0].startsWith('"')) return { text: match[0], start: match.index, end };
  }
  return undefined;
}
