import { type ToothNames, type ToothNumbering, toothByIso } from '@curette/shared';
import { valueWords } from '../../analysis/kinds/value-words.ts';
import type { PropertyValue } from '../../analysis/model.ts';
import { plainly } from '../markdown.ts';

/** What a property rests on whose numbers are written otherwise elsewhere. */
const NUMBERED_BY = 'ISO 3950';

/**
 * What is stated, in words; a number that other systems write otherwise with theirs: `16 (universal 3, Palmer 6┘ upper right)`.
 *
 * @param citation what the property rests on
 * @param first the numbering of whoever reads
 */
export function statedWords(
  citation: string | undefined,
  { values }: PropertyValue,
  first: ToothNumbering = 'iso',
): string {
  const words = values.map(valueWords).join(', ');
  const names = values.length === 1 ? numberedTooth(citation, words) : undefined;
  return plainly(names ? toothWords(names, first) : words);
}

/** The tooth that a number means, where the property that holds it is numbered so. */
export function numberedTooth(citation: string | undefined, number: string): ToothNames | undefined {
  return citation?.split(', ').includes(NUMBERED_BY) ? toothByIso(number) : undefined;
}

/** A tooth in the numbering of whoever reads, the other two behind. */
export function toothWords({ iso, universal, palmer, quadrant }: ToothNames, first: ToothNumbering): string {
  switch (first) {
    case 'iso':
      return `${iso} (universal ${universal}, Palmer ${palmer} ${quadrant})`;
    case 'universal':
      return `universal ${universal} (ISO ${iso}, Palmer ${palmer} ${quadrant})`;
    case 'palmer':
      return `Palmer ${palmer} ${quadrant} (ISO ${iso}, universal ${universal})`;
    default:
      return first satisfies never;
  }
}
