import { isUnitSpelling } from './parse-unit.ts';
import type { Quantity } from './quantity.ts';
import { isPoint } from './range.ts';
import { countUnit, type Unit } from './unit.ts';

/** Why a `unit` declaration makes no unit. */
export type UnitRefusal = 'already_a_unit' | 'not_one_value';

/**
 * The unit that `unit drop, drops is 0.05 mL` or `unit cartridge, cartridges is count` declares; put it into
 * `DeclaredUnits` under each of its names. A name that is a unit already, or looks like one, is refused, and so is a
 * value that is a range, nought or negative.
 */
export function declareUnit(names: readonly [string, ...string[]], is: Quantity | 'count'): Unit | UnitRefusal {
  if (names.some(isUnitSpelling)) return 'already_a_unit';
  const [one, many = one] = names;
  if (is === 'count') return countUnit(one, many);
  if (!isPoint(is.range) || is.range.lo <= 0 || !Number.isFinite(is.range.lo) || is.unit.offset !== 0) {
    return 'not_one_value';
  }
  return { canonical: one, dimension: is.dimension, factor: is.range.lo, offset: 0, label: { one, many } };
}
