import type { ValueStatement } from '@curette/grammar';
import { compare, formatSource, slipOf } from '@curette/shared';
import { caseOutsideRange } from '../../problems/case_outside_range.ts';
import { problemAt, type Report } from '../../problems/problem.ts';
import { valueWords } from '../kinds/value-words.ts';
import { type PropertyValue, placeOf, type Value } from '../model.ts';
import type { Module } from '../names/module.ts';
import type { Thing } from '../protocol/things.ts';

/** Whether what a case says of a thing is among what its protocol gives; told where it is not. */
export function checkWithin(
  module: Module,
  item: ValueStatement,
  thing: Thing,
  value: PropertyValue,
  report: Report,
): boolean {
  const given = thing.values.get(value.name);
  if (!given || given.values.length === 0) return true;
  const outside = value.values.findIndex((one) => !given.values.some((other) => among(one, other)));
  const one = value.values[outside];
  if (!one) return true;
  const node = item.values[outside] ?? item.name;
  const place = placeOf(module.id, item, node);
  const [only] = given.values;
  const slip = one.type === 'quantity' && only?.type === 'quantity' ? slipOf(one.quantity, only.quantity) : undefined;
  report(
    problemAt(caseOutsideRange, place, {
      property: value.name,
      thing: thing.label,
      says: valueWords(one),
      gives: given.values.map(valueWords),
      slip: slip && { unit: slip.suggestedUnit.canonical, text: formatSource(slip.suggested) },
      partly: one.type === 'quantity' && only?.type === 'quantity' && overlaps(one, only),
      place,
      declared: given.ground.place,
    }),
  );
  return false;
}

function among(value: Value, given: Value): boolean {
  switch (value.type) {
    case 'quantity':
      return given.type === 'quantity' && compare(value.quantity, 'within', given.quantity) === 'always';
    case 'size':
      return given.type === 'size' && sizeAmong(value.sides, given.sides);
    case 'number':
      return given.type === 'number' && value.value === given.value;
    case 'yes or no':
      return given.type === 'yes or no' && value.value === given.value;
    case 'name':
      return given.type === 'name' && value.name === given.name;
    // Words say the same thing in many ways.
    case 'text':
      return given.type === 'text';
    default:
      return value satisfies never;
  }
}

/** Side by side as they are written, or turned. */
function sizeAmong(
  sides: Extract<Value, { type: 'size' }>['sides'],
  given: Extract<Value, { type: 'size' }>['sides'],
): boolean {
  if (sides.length !== given.length) return false;
  const fits = (turned: typeof given) =>
    sides.every((side, i) => {
      const other = turned[i];
      return other !== undefined && compare(side, 'within', other) === 'always';
    });
  return fits(given) || fits([...given].reverse());
}

function overlaps(one: Extract<Value, { type: 'quantity' }>, other: Extract<Value, { type: 'quantity' }>): boolean {
  return compare(one.quantity, 'within', other.quantity) === 'sometimes';
}
