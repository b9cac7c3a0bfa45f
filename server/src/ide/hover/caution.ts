import { dimension, dimensionNamed } from '@curette/shared';
import type { Kind } from '../../analysis/model.ts';

/** Said wherever what is shown could be taken for a dose or for leave to use something. */
export const CAUTION = 'Local codes, product labelling and licensed practice come first.';

/** Whether a kind of thing is given by body mass, as its properties tell. */
export function isDosed(kind: Kind): boolean {
  for (const { type } of kind.properties.values())
    if (type?.form === 'quantity' && dimensionNamed(type.dimension) === dimension('dose per body mass')) return true;
  return false;
}

export function needsCaution(kind: Kind, contraindications: number): boolean {
  return contraindications > 0 || isDosed(kind);
}
