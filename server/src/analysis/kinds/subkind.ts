import type { Kind } from '../model.ts';

/** Whether `kind` is `other` or descends from it. A kind is the same kind wherever it is asked from. */
export function isKind(kind: Kind, other: Kind): boolean {
  for (let k: Kind | undefined = kind; k; k = k.parent) if (sameKind(k, other)) return true;
  return false;
}

/** Whether a thing of `kind` may stand where `wanted` is asked for: as itself, or as what it serves as. */
export function fitsKind(kind: Kind, wanted: Kind): boolean {
  return isKind(kind, wanted) || kind.servesAs.some((as) => isKind(as, wanted));
}

/** How far a kind is from one it fits: steps up to it; what only serves as it is farther than any ancestor. */
export function kindDistance(kind: Kind, wanted: Kind): number {
  let steps = 0;
  for (let k: Kind | undefined = kind; k; k = k.parent, steps++) if (sameKind(k, wanted)) return steps;
  return 50;
}

/** Whether the kind of that name is among a kind and its ancestors. */
export function descendsFrom(kind: Kind, name: string): boolean {
  for (let k: Kind | undefined = kind; k; k = k.parent) if (k.name === name) return true;
  return false;
}

function sameKind(a: Kind, b: Kind): boolean {
  return a === b || (a.name === b.name && a.file === b.file);
}
