import {
  commonDimension,
  countedNoun,
  countUnit,
  type Dimension,
  dimension,
  divide,
  multiply,
  notNegative,
  plainNumber,
  type Quantity,
} from '@curette/shared';
import type { Environment, Evaluated, Unsaid } from '../rules/evaluate.ts';
import type { Consumption } from './plan.ts';
import type { Thing } from './things.ts';

/** The body mass of whoever the protocol is about, for amounts written per body mass. */
export type BodyMass = (env: Environment) => Evaluated;

export function isAll(use: Consumption): boolean {
  return !use.written && !use.unsaid;
}

export function perBodyMass(quantity: Quantity | undefined): boolean {
  return quantity?.dimension === dimension('dose per body mass');
}

/**
 * What a step uses up, in the measure asked for. What is written counts before what it comes to in the thing's own measure; a volume
 * becomes a mass, and a mass a volume, by the thing's `concentration`; pieces become what one of them holds, by the property of that
 * name; a dose per body mass becomes a mass by that body's. Nothing else is turned into anything else.
 */
export function convertedAmount(
  use: Consumption,
  measure: Dimension,
  mass: BodyMass,
  env: Environment,
): Quantity | Unsaid {
  const { thing } = use;
  if (use.unsaid) return use.unsaid;
  const all = thing.amount?.type === 'quantity' ? thing.amount.quantity : undefined;
  if (isAll(use) && !all) return { missing: `the amount of ${thing.label}` };
  let amount = use.written ?? all;
  if (!amount) return { missing: `how much of ${thing.label} is used up` };
  amount = notNegative(amount) ?? amount;
  if (fits(amount, measure)) return amount;
  if (perBodyMass(amount)) {
    const body = mass(env);
    if (body.type !== 'quantity') return body.type === 'unknown' ? body : { missing: 'the body mass' };
    const dose = multiply(amount, body.quantity);
    if (!dose.ok) return { missing: `a mass of ${thing.label}` };
    amount = dose.quantity;
    if (fits(amount, measure)) return amount;
  }
  const noun = countedNoun(amount.dimension);
  if (noun !== undefined) {
    const held = stated(thing, noun, `what one ${noun} of ${thing.label} holds`);
    if ('missing' in held) return held;
    const volume = multiply({ ...plainNumber(0), range: amount.range }, held);
    if (!volume.ok) return { missing: `what one ${noun} of ${thing.label} holds` };
    amount = { ...volume.quantity, unit: held.unit };
    if (fits(amount, measure)) return amount;
  }
  const pieces = countedNoun(measure);
  if (pieces !== undefined) {
    const held = stated(thing, pieces, `what one ${pieces} of ${thing.label} holds`);
    if ('missing' in held) return held;
    const number = divide(amount, held);
    if (number.ok && number.quantity.dimension === dimension('ratio'))
      return { dimension: measure, range: number.quantity.range, unit: countUnit(pieces, `${pieces}s`) };
    return { missing: `how many ${pieces}s of ${thing.label} are used up` };
  }
  const concentrated = measure === dimension('mass') && amount.dimension === dimension('volume');
  if (concentrated || (measure === dimension('volume') && amount.dimension === dimension('mass'))) {
    const concentration = stated(thing, 'concentration', `the concentration of ${thing.label}`);
    if ('missing' in concentration) return concentration;
    const other = concentrated ? multiply(amount, concentration) : divide(amount, concentration);
    if (other.ok && fits(other.quantity, measure)) return other.quantity;
  }
  return { missing: `the ${measure.name} of ${thing.label} that is used up` };
}

function fits(quantity: Quantity, measure: Dimension): boolean {
  return commonDimension(quantity.dimension, measure) !== undefined;
}

function stated(thing: Thing, property: string, missing: string): Quantity | Unsaid {
  const value = thing.values.get(property)?.values[0];
  return value?.type === 'quantity' ? value.quantity : { missing, gap: thing.gaps.get(property) };
}
