import type { Statement } from '@curette/grammar';
import type { SourceFile } from '../analysis/snapshot.ts';
import type { FileId } from '../problems/problem.ts';
import type { Stretch } from './checked.ts';
import type { SymbolSort } from './document-symbols.ts';

/** Something that a file declares. */
export interface WorkspaceSymbol extends Stretch {
  readonly name: string;
  /** what it is called on a page */
  readonly label: string | undefined;
  readonly sort: SymbolSort;
  /** the protocol that it is in */
  readonly container: string | undefined;
}

/** More than this nobody looks through. */
const MOST_ANSWERED = 200;

/**
 * What is declared anywhere, by a few letters of its name or of its label in their order, best first: names before labels, letters that
 * begin words and stand together before others, the workspace before the library.
 */
export function* workspaceSymbols(
  query: string,
  groups: Iterable<Iterable<WorkspaceSymbol>>,
): Generator<void, readonly WorkspaceSymbol[]> {
  const wanted = query.toLowerCase().replace(/\s+/g, '');
  const found: { readonly symbol: WorkspaceSymbol; readonly score: number }[] = [];
  let seen = 0;
  for (const symbols of groups)
    for (const symbol of symbols) {
      if (seen++ % 500 === 499) yield;
      const score = scoreOf(wanted, symbol);
      if (score !== undefined) found.push({ symbol, score });
    }
  return found
    .sort(
      (a, b) =>
        b.score - a.score ||
        a.symbol.name.length - b.symbol.name.length ||
        compared(a.symbol.name, b.symbol.name) ||
        compared(a.symbol.file, b.symbol.file),
    )
    .slice(0, MOST_ANSWERED)
    .map(({ symbol }) => symbol);
}

/** What a file declares that others, or a reader, may look for. */
export function symbolsIn({ id, tree }: SourceFile): readonly WorkspaceSymbol[] {
  const found: WorkspaceSymbol[] = [];
  tree.body.items.forEach((statement, i) => {
    const start = tree.body.offsets[i] ?? 0;
    const symbol = symbolOf(id, statement, start, undefined);
    if (symbol) found.push(symbol);
    if (statement.type !== 'protocol') return;
    const { body } = statement;
    body?.items.forEach((item, k) => {
      if (item.type !== 'visit') return;
      const visit = symbolOf(id, item, start + (body.offsets[k] ?? 0), statement.name?.text);
      if (visit) found.push(visit);
    });
  });
  return found;
}

function symbolOf(
  file: FileId,
  statement: Statement,
  start: number,
  container: string | undefined,
): WorkspaceSymbol | undefined {
  const named = namedBy(statement);
  if (!named) return undefined;
  const { name, sort } = named;
  const label = 'label' in statement ? statement.label?.value : undefined;
  return { file, start: start + name.start, end: start + name.end, name: name.text, label, sort, container };
}

function namedBy(statement: Statement) {
  switch (statement.type) {
    case 'kind':
    case 'entry':
    case 'rule':
    case 'source':
    case 'finding':
    case 'pause':
    case 'protocol':
    case 'case':
    case 'visit':
      return statement.name && { name: statement.name, sort: statement.type };
    case 'figures':
      return statement.name && { name: statement.name, sort: 'list' as const };
    case 'action':
    case 'procedure':
      return statement.verb && { name: statement.verb, sort: 'action' as const };
    case 'unit':
      return statement.names[0] && { name: statement.names[0], sort: 'unit' as const };
    default:
      return undefined;
  }
}

function scoreOf(wanted: string, { name, label, file }: WorkspaceSymbol): number | undefined {
  const byName = likeness(wanted, name);
  const byLabel = label === undefined ? undefined : likeness(wanted, label);
  if (byName === undefined && byLabel === undefined) return undefined;
  const own = file.startsWith('library:') ? 0 : 1;
  return Math.max(byName ?? 0, (byLabel ?? 0) - 2) + own;
}

/**
 * How well letters stand for a text that has them in their order; undefined where it has not. Of the ways to find them in it the best
 * counts: `best[at]` is that of the letters so far, the last of them at `at`.
 */
function likeness(wanted: string, text: string): number | undefined {
  const letters = text.toLowerCase();
  if (letters === wanted) return 100 + 10 * wanted.length;
  let best: readonly (number | undefined)[] | undefined;
  for (const letter of wanted) {
    const next: (number | undefined)[] = [];
    let before: number | undefined;
    for (let at = 0; at < letters.length; at++) {
      const joined = at > 0 ? best?.[at - 1] : undefined;
      if (letters.charAt(at) === letter) {
        const apart = best ? before : 0;
        const alone = apart === undefined ? undefined : apart + (beginsWord(letters, at) ? 5 : 1);
        next[at] = Math.max(alone ?? 0, joined === undefined ? 0 : joined + 6) || undefined;
      }
      if (joined !== undefined) before = Math.max(before ?? 0, joined);
    }
    best = next;
  }
  const scores = best?.filter((score) => score !== undefined) ?? [0];
  if (scores.length === 0) return undefined;
  return Math.max(...scores) + (letters.startsWith(wanted) ? 50 : 0);
}

function beginsWord(letters: string, at: number): boolean {
  return at === 0 || !/[\p{L}\p{N}]/u.test(letters.charAt(at - 1));
}

function compared(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
