/** The blocks around a change, and the tree with some of their lines read anew. */
import type { Draft } from './parser/base.ts';
import type { Body, Statement, SyntaxTree } from './tree.ts';
import { lastStarting } from './walk.ts';

/** What was at `[start, oldEnd)` in the old text is at `[start, newEnd)` in the new one. */
export interface Change {
  readonly start: number;
  readonly oldEnd: number;
  readonly newEnd: number;
}

/** A block around the change. */
export interface Level {
  readonly body: Body;
  readonly owner: Statement | undefined;
  /** where the owner starts in the old text; 0 for the file */
  readonly start: number;
  /** which item of the level above the owner is */
  readonly index: number;
}

/** The blocks around the change, the file first. */
export function levelsAround(tree: SyntaxTree, change: Change): Level[] {
  const levels: Level[] = [{ body: tree.body, owner: undefined, start: 0, index: 0 }];
  let { body } = tree;
  let from = 0;
  for (;;) {
    const index = lastStarting(body.offsets, change.start - from);
    const statement = body.items[index];
    if (statement?.body?.close === undefined || readsItsBlock(statement)) return levels;
    from += body.offsets[index] ?? 0;
    if (change.start <= from + statement.body.open || change.oldEnd > from + statement.body.close) return levels;
    levels.push({ body: statement.body, owner: statement, start: from, index });
    body = statement.body;
  }
}

/** Whether what a statement is may hang on what its block holds: see `recognise`. */
export function readsItsBlock(statement: Statement): boolean {
  return statement.type === 'entry' || statement.type === 'unreadable' || statement.flaws.length > 0;
}

/** What stands in place of some items of a block. */
export interface Region {
  /** the items replaced: `[from, to)` */
  readonly from: number;
  readonly to: number;
  readonly items: Statement[];
  /** from the owner's start, in the new text */
  readonly offsets: number[];
  readonly nextId: number;
}

/** The tree with the region in place; blocks around it are new, everything else is shared. */
export function splice(
  tree: SyntaxTree,
  levels: readonly Level[],
  depth: number,
  region: Region,
  change: Change,
): SyntaxTree {
  const delta = change.newEnd - change.oldEnd;
  let { items, offsets, from, to } = region as { items: Statement[]; offsets: number[]; from: number; to: number };
  let body = tree.body;
  for (let at = depth; at >= 0; at--) {
    const level = levels[at];
    if (level === undefined) break;
    body = replaced(level.body, from, to, items, offsets, delta);
    if (level.owner === undefined) break;
    const owner: Draft<Statement> = { ...level.owner, body, length: lengthOf(level.owner, body, delta) };
    items = [owner];
    offsets = [levels[at - 1]?.body.offsets[level.index] ?? 0];
    from = level.index;
    to = from + 1;
  }
  const flaws = tree.flaws.map((flaw) =>
    flaw.start < change.start ? flaw : { ...flaw, start: flaw.start + delta, end: flaw.end + delta },
  );
  return { ...tree, length: tree.length + delta, body, flaws, nextId: region.nextId };
}

/** A block that is not closed ends with its last line. */
function lengthOf(owner: Statement, body: Body, delta: number): number {
  if (body.close !== undefined) return owner.length + delta;
  return Math.max(owner.head.end, (body.offsets.at(-1) ?? body.open) + (body.items.at(-1)?.length ?? 1));
}

function replaced(body: Body, from: number, to: number, items: Statement[], offsets: number[], delta: number): Body {
  const after = body.offsets.slice(to);
  if (delta !== 0) for (let at = 0; at < after.length; at++) after[at] = (after[at] ?? 0) + delta;
  return {
    ...body,
    close: body.close === undefined ? undefined : body.close + delta,
    items: body.items.slice(0, from).concat(items, body.items.slice(to)),
    offsets: body.offsets.slice(0, from).concat(offsets, after),
  };
}

/** Whether no further statement stands on the rest of the line: its indentation may have changed. */
export function lineIsFree(text: string, from: number): boolean {
  for (let at = from; at < text.length; at++) {
    const sign = text.charAt(at);
    if (sign === '\n' || sign === '\r') return true;
    if (sign === '/' && text.charAt(at + 1) === '/') return text.charAt(at + 2) !== '/' || text.charAt(at + 3) === '/';
    if (sign !== ' ' && sign !== '\t' && sign !== '}' && sign !== ',') return false;
  }
  return true;
}
