import { formatQuantity, formatSize } from '@curette/shared';
import type { SetNote, Value } from '../model.ts';

/** A value as a person says it. */
export function valueWords(value: Value): string {
  switch (value.type) {
    case 'quantity':
      return formatQuantity(value.quantity);
    case 'size':
      return formatSize(value.sides);
    case 'number':
      return String(value.value);
    case 'yes or no':
      return value.value ? 'yes' : 'no';
    case 'text':
      return value.value;
    case 'name':
      return value.name.replaceAll('_', ' ');
    default:
      return value satisfies never;
  }
}

/** Which set a figure comes from, as it stands beside the figure: "ceilings: Ceilings of the leaflets". */
export function setWords({ group, label }: SetNote): string {
  return `${group.replaceAll('_', ' ')}: ${label}`;
}
