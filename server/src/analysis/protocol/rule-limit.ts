import { makeRange, withRange } from '@curette/shared';
import { secondsOf } from '../kinds/seconds.ts';
import type { PropertyLimit, TimeLimit } from '../model.ts';
import { type Environment, evaluate } from '../rules/evaluate.ts';
import type { Mark } from './monitors.ts';

/** The time that a rule asks for where its second step stands: what is written, or what a property of the step's things says. */
export function limitAt(
  limit: TimeLimit | PropertyLimit,
  environment: Environment,
): Partial<Pick<Mark, 'limit' | 'untold'>> {
  if (!('side' in limit)) return { limit };
  const value = evaluate(limit.value, environment);
  const time = value.type === 'quantity' ? secondsOf(value.quantity) : undefined;
  if (value.type !== 'quantity' || !time)
    return { untold: value.type === 'unknown' ? value : { missing: 'a time', gap: undefined } };
  const { range } = value.quantity;
  switch (limit.side) {
    case 'at least':
      return {
        limit: {
          written: withRange(value.quantity, makeRange(range.lo, range.lo, false, false)),
          least: time.lo,
          most: Number.POSITIVE_INFINITY,
        },
      };
    case 'at most':
      return {
        limit: {
          written: withRange(value.quantity, makeRange(0, range.hi, false, false)),
          least: 0,
          most: time.hi,
        },
      };
    case 'exactly':
      return { limit: { written: value.quantity, least: time.lo, most: time.hi } };
    default:
      return limit.side satisfies never;
  }
}
