/** Ways through a tree. Positions are absolute here: counted from the start of the file. */
import type { Statement, SyntaxTree } from './tree.ts';

/** A statement and where it starts in the file. */
export interface Placed {
  readonly statement: Statement;
  readonly start: number;
}

/**
 * Visits every statement in the order of the text, owners before what their blocks hold.
 * @param visit told the statement, where it starts in the file, and the statements around it, outermost first (the list
 * is the same one each time: copy it to keep it); answering `false` leaves its block out
 */
export function forEachStatement(
  tree: SyntaxTree,
  visit: (statement: Statement, start: number, parents: readonly Placed[]) => unknown,
): void {
  const parents: Placed[] = [];
  const walk = (items: readonly Statement[], offsets: readonly number[], from: number): void => {
    for (const [at, statement] of items.entries()) {
      const start = from + (offsets[at] ?? 0);
      if (visit(statement, start, parents) === false || statement.body === undefined) continue;
      parents.push({ statement, start });
      walk(statement.body.items, statement.body.offsets, start);
      parents.pop();
    }
  };
  walk(tree.body.items, tree.body.offsets, 0);
}

/**
 * The statements that enclose an offset, outermost first. At the edge between two, the one that begins there; behind the
 * last word of a line, still that line.
 */
export function pathAt(tree: SyntaxTree, offset: number): Placed[] {
  const path: Placed[] = [];
  let { body } = tree as { body: Statement['body'] };
  let from = 0;
  while (body !== undefined) {
    const at = lastStarting(body.offsets, offset - from);
    const statement = body.items[at];
    if (statement === undefined) break;
    const start = from + (body.offsets[at] ?? 0);
    if (offset > start + statement.length) break;
    path.push({ statement, start });
    body = statement.body;
    from = start;
  }
  return path;
}

/** Index of the last of the rising offsets that is not behind `offset`; -1 when all are. */
export function lastStarting(offsets: readonly number[], offset: number): number {
  let low = 0;
  let high = offsets.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((offsets[middle] ?? 0) <= offset) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
