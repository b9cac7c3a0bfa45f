import type { Statement, SyntaxTree } from '@curette/grammar';
import type { Place } from '../problems/problem.ts';

/** A statement, where it starts in its file, and the statements it is inside of, outermost first. */
export interface Located {
  readonly statement: Statement;
  readonly start: number;
  readonly parent: Located | undefined;
}

const indexes = new WeakMap<SyntaxTree, ReadonlyMap<number, Located>>();

/** Where a statement of a file is now. */
export function locate(tree: SyntaxTree, statement: number): Located | undefined {
  let index = indexes.get(tree);
  if (!index) {
    index = indexOf(tree);
    indexes.set(tree, index);
  }
  return index.get(statement);
}

/** A place as offsets in its file; undefined when its statement is gone. */
export function offsetsOf(
  tree: SyntaxTree,
  place: Place,
): { readonly start: number; readonly end: number } | undefined {
  if (place.statement === 0) return place.span;
  const located = locate(tree, place.statement);
  return located && { start: located.start + place.span.start, end: located.start + place.span.end };
}

/** Where several statements of a file start now, in one pass; for when only a few of them are wanted. */
export function startsOf(tree: SyntaxTree, statements: ReadonlySet<number>): ReadonlyMap<number, number> {
  const starts = new Map<number, number>();
  const visit = (body: SyntaxTree['body'], base: number): void => {
    const { items, offsets } = body;
    for (let i = 0; i < items.length && starts.size < statements.size; i++) {
      const statement = items[i] as Statement;
      const start = base + (offsets[i] as number);
      if (statements.has(statement.id)) starts.set(statement.id, start);
      if (statement.body) visit(statement.body, start);
    }
  };
  visit(tree.body, 0);
  return starts;
}

function indexOf(tree: SyntaxTree): Map<number, Located> {
  const index = new Map<number, Located>();
  const visit = (body: SyntaxTree['body'], base: number, parent: Located | undefined): void => {
    for (let i = 0; i < body.items.length; i++) {
      const statement = body.items[i] as Statement;
      const located: Located = { statement, start: base + (body.offsets[i] as number), parent };
      index.set(statement.id, located);
      if (statement.body) visit(statement.body, located.start, located);
    }
  };
  visit(tree.body, 0, undefined);
  return index;
}
