import type { VerifyStatement } from '@curette/grammar';
import { compare, formatSource, type Quantity } from '@curette/shared';
import { checkOutsideStated } from '../../problems/check_outside_stated.ts';
import { problemAt, type Report } from '../../problems/problem.ts';
import { unknownProperty } from '../../problems/unknown_property.ts';
import { readQuantity } from '../kinds/quantity.ts';
import { checkPlausible, checkQuantity } from '../kinds/value.ts';
import { valueWords } from '../kinds/value-words.ts';
import { type PropertyValue, placeOf, type Value } from '../model.ts';
import type { NameScope } from './name-scope.ts';
import { thingOrReport } from './step.ts';
import type { Thing } from './things.ts';

/**
 * A property that is measured is one its thing has, in its measure; the range asked for is plausible, and among what is stated of the
 * thing.
 */
export function checkMeasurement(scope: NameScope, item: VerifyStatement, report: Report): void {
  const { module } = scope;
  const thing = thingOrReport(scope, item, item.of, report);
  const { what, within } = item;
  const name = thing && what && !('value' in what) ? what : undefined;
  const property = name && thing?.kind.properties.get(name.text);
  if (thing && name && !property) {
    const place = placeOf(module.id, item, name);
    report(
      problemAt(unknownProperty, place, {
        property: name.text,
        kind: thing.kind.label,
        known: [...thing.kind.properties.keys()],
        place,
      }),
    );
  }
  if (!within) return;
  const nodes = within.type === 'size' ? within.sides : [within];
  let sound = true;
  const noting: Report = (problem) => {
    sound = false;
    report(problem);
  };
  const sides = nodes.flatMap((side) => {
    const quantity = readQuantity(module, item, side, noting);
    if (quantity && property?.type?.form === 'quantity')
      checkQuantity(module, item, side, property, property.type.dimension, quantity, noting);
    else if (quantity && property) checkPlausible(module, item, side, property, quantity, noting);
    return quantity ?? [];
  });
  if (!thing || !property || !sound || sides.length !== nodes.length) return;
  const stated = statedOf(thing, property.name);
  if (stated) compareWithStated(scope, item, within, thing, sides, stated, report);
}

interface Stated {
  readonly value: PropertyValue;
  readonly by: 'entry' | 'protocol';
}

/** What the protocol or the catalogue states of a property; what a case fills in is a measurement and no limit. */
function statedOf(thing: Thing, property: string): Stated | undefined {
  const value = thing.values.get(property);
  if (!value) return undefined;
  if (value.set || thing.entry?.values.get(property) === value) return { value, by: 'entry' };
  return thing.own.get(property) === value ? { value, by: 'protocol' } : undefined;
}

function compareWithStated(
  scope: NameScope,
  item: VerifyStatement,
  written: { readonly start: number; readonly end: number },
  thing: Thing,
  sides: readonly Quantity[],
  { value, by }: Stated,
  report: Report,
): void {
  const [only, more] = value.values;
  if (!only || more) return;
  const stated = only.type === 'quantity' ? [only.quantity] : only.type === 'size' ? only.sides : [];
  if (stated.length !== sides.length) return;
  const found = relation(sides, stated, by);
  if (found === 'among') return;
  const place = placeOf(scope.module.id, item, written);
  report(
    problemAt(checkOutsideStated, place, {
      property: value.name,
      thing: thing.label,
      accepts: valueWords(asValue(sides)),
      states: valueWords(only),
      by,
      wholly: found === 'outside',
      text: stated.map((side) => formatSource(side)).join(' by '),
      place,
      stated: value.ground.place,
    }),
  );
}

type Relation = 'among' | 'reaches out' | 'outside';

/** Side by side as they are written, or turned: whichever fits better. */
function relation(sides: readonly Quantity[], stated: readonly Quantity[], by: Stated['by']): Relation {
  const turned = (others: readonly Quantity[]): Relation => {
    const each = sides.map((side, i) => relationOfOne(side, others[i], by));
    return each.find((one) => one === 'outside') ?? each.find((one) => one === 'reaches out') ?? 'among';
  };
  const ways = stated.length > 1 ? [turned(stated), turned([...stated].reverse())] : [turned(stated)];
  return ways.find((way) => way === 'among') ?? ways.find((way) => way === 'reaches out') ?? 'outside';
}

function relationOfOne(accepted: Quantity, stated: Quantity | undefined, by: Stated['by']): Relation {
  if (!stated) return 'among';
  const verdict = compare(accepted, 'within', stated);
  if (verdict === 'never') return 'outside';
  if (verdict !== 'sometimes') return 'among';
  // Round one figure there is always some room.
  if (stated.range.lo === stated.range.hi) return 'among';
  if (by === 'entry') return 'reaches out';
  // A check with one end only leaves the other to whoever looks.
  const below = accepted.range.lo < stated.range.lo && Number.isFinite(accepted.range.lo) && accepted.range.lo !== 0;
  const above = accepted.range.hi > stated.range.hi && Number.isFinite(accepted.range.hi);
  return below || above ? 'reaches out' : 'among';
}

function asValue(sides: readonly Quantity[]): Value {
  const [first] = sides;
  return sides.length === 1 && first ? { type: 'quantity', quantity: first } : { type: 'size', sides };
}
