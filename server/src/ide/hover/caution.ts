import { dimension, dimensionNamed } from '@curette/shared';
import { isDose, isDosed } from '../../analysis/kinds/dosed.ts';
import type { Kind, Property } from '../../analysis/model.ts';

/** Said wherever what is shown could be taken for a dose or for leave to use something. */
export const CAUTION = 'Local codes, product labelling and licensed practice come first.';

/** The same as a paragraph, where it is to be said. */
export function caution(said: boolean): string {
  return said ? `_${CAUTION}_` : '';
}

export function needsCaution(kind: Kind, contraindications: number): boolean {
  return contraindications > 0 || isDosed(kind);
}

/** Whether a property says how much of something is given, or how strong it is that is not for everybody. */
export function isCautioned(property: Property, kind: Kind): boolean {
  const strength =
    property.type?.form === 'quantity' && dimensionNamed(property.type.dimension) === dimension('concentration');
  return isDose(property) || isDosed(kind) || (strength && kind.contraindications.length > 0);
}
