import type { FileId } from '../problems/problem.ts';

const LIBRARY = 'library:';

export const ENDING = '.curette';

/** The file that is in use everywhere. */
export const CORE: FileId = `${LIBRARY}std/core${ENDING}`;

export function isLibrary(id: FileId): boolean {
  return id.startsWith(LIBRARY);
}

/**
 * What stands before the path in an id: `library:`, the mark of one of several folders worked in (`folder2:`), or nothing. A path
 * never leads from one to another.
 */
export function rootOf(id: FileId): string {
  return id.slice(0, id.indexOf(':') + 1);
}

export type UseTarget =
  | { readonly ok: true; readonly id: FileId }
  /** the path climbs above the workspace, or is absolute */
  | { readonly ok: false; readonly reason: 'outside' };

/**
 * The file a `use` names. `std/NAME` is the shipped library; anything else counts from the folder of the file that has the
 * `use`, and never leaves the workspace (or, from a library file, the library).
 */
export function resolveUse(from: FileId, path: string): UseTarget {
  if (path === 'std' || path.startsWith('std/')) return climb([], path.split('/'), LIBRARY);
  const root = rootOf(from);
  const folder = from.slice(root.length).split('/').slice(0, -1);
  if (path.startsWith('/') || path.includes('\\') || path.includes(':')) return { ok: false, reason: 'outside' };
  return climb(folder, path.split('/'), root);
}

function climb(folder: readonly string[], steps: readonly string[], root: string): UseTarget {
  const parts = [...folder];
  for (const step of steps) {
    if (step === '' || step === '.') continue;
    if (step !== '..') parts.push(step);
    else if (parts.pop() === undefined) return { ok: false, reason: 'outside' };
  }
  if (root === LIBRARY && parts[0] !== 'std') return { ok: false, reason: 'outside' };
  return { ok: true, id: `${root}${parts.join('/')}${ENDING}` };
}

/** How `from` would write a `use` of `target`. */
export function usePathTo(from: FileId, target: FileId): string {
  const bare = target.slice(0, -ENDING.length);
  if (isLibrary(target)) return bare.slice(LIBRARY.length);
  const here = from.slice(rootOf(from).length).split('/').slice(0, -1);
  const there = bare.slice(rootOf(target).length).split('/');
  let shared = 0;
  while (shared < here.length && shared < there.length - 1 && here[shared] === there[shared]) shared++;
  const up = here.slice(shared).map(() => '..');
  const down = there.slice(shared);
  return [...up, ...down].join('/');
}
