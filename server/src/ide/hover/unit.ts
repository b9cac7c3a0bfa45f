import { type DimensionName, exactly, formatQuantity, inUnit, type Unit, unitsOf } from '@curette/shared';
import { listWords } from '../../problems/words.ts';
import { capital, plainly } from '../markdown.ts';

/** The unit in the other usual units of its dimension. */
export function unitHover(spelling: string, unit: Unit): string[] {
  const one = exactly(1, unit);
  const written = formatQuantity(one);
  const others = unitsOf(unit.dimension)
    .filter((other) => other.canonical !== unit.canonical)
    .flatMap((other) => inUnit(one, other) ?? [])
    .map((quantity) => formatQuantity(quantity))
    .slice(0, 4);
  const code = unit.canonical !== spelling && unit.canonical !== '' ? `, written ${unit.canonical}` : '';
  return [
    `**${plainly(spelling)}**: unit of ${plainly(unit.dimension.name satisfies DimensionName | string)}${plainly(code)}`,
    others.length > 0 ? capital(`${plainly(written)} is ${plainly(listWords(others))}.`) : '',
  ];
}
