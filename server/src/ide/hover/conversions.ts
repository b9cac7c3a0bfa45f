import {
  between,
  commonDimension,
  countedNoun,
  countUnit,
  dimension,
  divide,
  exactly,
  formatQuantity,
  inUnit,
  multiply,
  plainNumber,
  type Quantity,
  type Unit,
  unitsOf,
} from '@curette/shared';
import type { PropertyValue } from '../../analysis/model.ts';
import { spoken } from '../as-written.ts';
import { plainly } from '../markdown.ts';

type Values = ReadonlyMap<string, PropertyValue>;

/** The amount that ends in a unit: `1.7 ` or `1..2 ` stands before it. */
export function amountBefore(text: string, unit: Unit): Quantity | undefined {
  const [, low, high] = /(?:^|[^\d.])(\d+(?:\.\d+)?)(?:\.\.(\d+(?:\.\d+)?))?\s?$/.exec(text) ?? [];
  if (low === undefined) return undefined;
  return high === undefined ? exactly(Number(low), unit) : between(Number(low), Number(high), unit);
}

/**
 * What an amount of something comes to by what is stated of that thing, with the figure it rests on: pieces as what one of them holds, a
 * volume as pieces, and by the `concentration` a volume as a mass and a mass as a volume. Nothing else is turned into anything else.
 *
 * @param units the counting words of the file, by name
 */
export function conversions(amount: Quantity, values: Values, units: ReadonlyMap<string, Unit>): readonly string[] {
  const lines: string[] = [];
  const tell = (quantity: Quantity, name: string, by: Quantity) =>
    lines.push(
      `- ${plainly(formatQuantity(amount))} is ${plainly(formatQuantity(quantity))} (${plainly(spoken(name))} ${plainly(formatQuantity(by))})`,
    );
  let measured = amount;
  const noun = countedNoun(amount.dimension);
  const piece = noun === undefined ? undefined : stated(values, noun);
  if (noun !== undefined && piece) {
    const held = multiply({ ...plainNumber(0), range: amount.range }, piece);
    if (held.ok) {
      measured = { ...held.quantity, unit: piece.unit };
      tell(measured, noun, piece);
    }
  }
  for (const name of values.keys()) {
    const counted = units.get(name);
    const one = counted && countedNoun(counted.dimension);
    const holds = one === undefined || one === noun ? undefined : stated(values, name);
    if (one === undefined || !holds || !commonDimension(holds.dimension, measured.dimension)) continue;
    const number = divide(measured, holds);
    if (number.ok && number.quantity.dimension === dimension('ratio'))
      tell(
        {
          dimension: counted?.dimension ?? number.quantity.dimension,
          range: number.quantity.range,
          unit: countUnit(one, `${one}s`),
        },
        name,
        holds,
      );
  }
  const strength = stated(values, 'concentration');
  const asMass = measured.dimension === dimension('volume');
  if (strength && (asMass || measured.dimension === dimension('mass'))) {
    const other = asMass ? multiply(measured, strength) : divide(measured, strength);
    const usual = unitsOf(dimension(asMass ? 'mass' : 'volume')).find(
      ({ canonical }) => canonical === (asMass ? 'mg' : 'mL'),
    );
    const shown = other.ok && usual ? inUnit(other.quantity, usual) : undefined;
    if (shown) tell(shown, 'concentration', strength);
  }
  return lines;
}

function stated(values: Values, name: string): Quantity | undefined {
  const value = values.get(name)?.values[0];
  return value?.type === 'quantity' ? value.quantity : undefined;
}
