import { toothByIso } from '@curette/shared';
import { valueWords } from '../../analysis/kinds/value-words.ts';
import type { PropertyValue } from '../../analysis/model.ts';
import { plainly } from '../markdown.ts';

/** What a property rests on whose numbers are written otherwise elsewhere. */
const NUMBERED_BY = 'ISO 3950';

/**
 * ` (universal 3, Palmer 6┘ upper right)` behind a number that is written so in other systems, or nothing.
 *
 * @param citation what the property rests on
 */
export function otherNumbers(citation: string | undefined, { values }: PropertyValue): string {
  const [only] = values;
  if (!only || values.length !== 1 || !citation?.split(', ').includes(NUMBERED_BY)) return '';
  const names = toothByIso(valueWords(only));
  return names ? plainly(` (universal ${names.universal}, Palmer ${names.palmer} ${names.quadrant})`) : '';
}
