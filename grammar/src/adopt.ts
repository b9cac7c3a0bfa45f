/** Keeps what a change left alone: statements read anew that are as they were become the old objects again. */
import type { Draft } from './parser/base.ts';
import type { Body, Statement } from './tree.ts';

/**
 * Statements of one block, before and after. Equal ones at both ends are the old objects; between them, those that stand
 * in place of an old one of the same sort keep its id, and so do the statements inside them.
 */
export function adopt(before: readonly Statement[], after: readonly Statement[]): Statement[] {
  const adopted = [...after];
  const shared = Math.min(before.length, after.length);
  let front = 0;
  while (front < shared && keepEqual(before, front, adopted, front)) front++;
  let back = 0;
  while (back < shared - front && keepEqual(before, before.length - 1 - back, adopted, adopted.length - 1 - back))
    back++;
  // Between the equal ends: by place from the front while the sorts agree, then from the back.
  const left = shared - back;
  let at = front;
  for (; at < left && inPlace(before, at, adopted, at); at++);
  for (let end = back; end < shared - at; end++) {
    if (!inPlace(before, before.length - 1 - end, adopted, adopted.length - 1 - end)) break;
  }
  return adopted;
}

function keepEqual(before: readonly Statement[], old: number, after: Statement[], fresh: number): boolean {
  const a = before[old];
  const b = after[fresh];
  if (a === undefined || b === undefined || !same(a, b)) return false;
  after[fresh] = a;
  return true;
}

/** The new statement takes the old one's id, and in its block what is equal. */
function inPlace(before: readonly Statement[], old: number, after: Statement[], fresh: number): boolean {
  const a = before[old];
  const b = after[fresh];
  if (a === undefined || b === undefined || a.type !== b.type) return false;
  const kept: Draft<Statement> = { ...b, id: a.id };
  if (a.body !== undefined && b.body !== undefined && a.body.items !== b.body.items) {
    const body: Body = { ...b.body, items: adopt(a.body.items, b.body.items) };
    kept.body = body;
  }
  after[fresh] = kept;
  return true;
}

/** Equal in everything but ids. */
function same(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a)) return Array.isArray(b) && a.length === b.length && a.every((value, at) => same(value, b[at]));
  const left = a as Record<string, unknown>;
  const right = b as Record<string, unknown>;
  if (left.length !== right.length) return false;
  for (const key in left) if (key !== 'id' && !same(left[key], right[key])) return false;
  return true;
}
