import type { ThingStatement } from '@curette/grammar';
import { commonDimension, countedNoun, dimensionNamed, type Quantity } from '@curette/shared';
import { problemAt, type Report } from '../../problems/problem.ts';
import { wrongMeasure } from '../../problems/wrong_measure.ts';
import { checkPlausible } from '../kinds/value.ts';
import { placeOf } from '../model.ts';
import type { Module } from '../names/module.ts';
import { inThingsMeasure } from '../rules/amount.ts';
import type { Thing } from './things.ts';

/**
 * What is written after a thing is measured as its kind says of `amount`, and plausible. A counting unit is judged by what the thing's
 * property of that name holds; where it has none, nothing can be told of it here.
 */
export function checkListedAmount(module: Module, item: ThingStatement, thing: Thing, report: Report): void {
  const property = thing.kind.properties.get('amount');
  const { amount } = thing;
  if (!property?.type || !amount || !item.amount) return;
  const wanted = property.type.form === 'quantity' ? property.type.dimension : property.type.form;
  const wrong = (found: Quantity | undefined) =>
    report(
      problemAt(wrongMeasure, placeOf(module.id, item, item.amount ?? item.name), { what: 'amount', wanted, found }),
    );
  if (amount.type === 'size') {
    if (wanted !== 'size') wrong(undefined);
    else for (const side of amount.sides) checkPlausible(module, item, item.amount, property, side, report);
    return;
  }
  if (amount.type !== 'quantity') return;
  const { quantity } = amount;
  const measured = inThingsMeasure(thing, quantity);
  const dimension = dimensionNamed(wanted);
  if (dimension && commonDimension(measured.dimension, dimension)) {
    const counted = measured === quantity ? undefined : quantity;
    checkPlausible(module, item, item.amount, property, measured, report, counted);
  } else if (countedNoun(quantity.dimension) === undefined || measured !== quantity) wrong(quantity);
}
