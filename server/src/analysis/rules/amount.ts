import { multiply, plainNumber, type Quantity, type Size } from '@curette/shared';
import type { Thing } from '../protocol/things.ts';

/** What is written with a thing where it is listed, in the measure its own properties give: cartridges as a volume. */
export function amountInUse(thing: Thing): Quantity | Size | undefined {
  if (!thing.amount) return undefined;
  if (thing.amount.type === 'size') return thing.amount.sides;
  if (thing.amount.type !== 'quantity') return undefined;
  return inThingsMeasure(thing, thing.amount.quantity);
}

/** `2 cartridges` of a thing that says what one cartridge holds. */
export function inThingsMeasure(thing: Thing, quantity: Quantity): Quantity {
  const noun = quantity.unit.canonical;
  if (!quantity.dimension.key.startsWith('count:')) return quantity;
  const each = thing.values.get(noun)?.values[0];
  if (each?.type !== 'quantity') return quantity;
  const product = multiply({ ...plainNumber(0), range: quantity.range }, each.quantity);
  return product.ok ? { ...product.quantity, unit: each.quantity.unit } : quantity;
}
