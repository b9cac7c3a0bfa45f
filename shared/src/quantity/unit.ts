import { countOf, type Dimension, dimension } from './dimension.ts';

/**
 * A unit of measure. A value in the unit becomes base units (mm, mg, s, months, K, …) as `value * factor + offset`.
 */
export interface Unit {
  /** The spelling the formatter writes: a UCUM case-sensitive code, or the first name of a declared unit. */
  readonly canonical: string;
  readonly dimension: Dimension;
  readonly factor: number;
  /** Not zero for thermometer scales only. */
  readonly offset: number;
  /** How it is written for people, when not as `canonical`. `one` goes with exactly 1. */
  readonly label?: { readonly one: string; readonly many: string };
}

/** The unit of a bare number. */
export function bareUnit(d: Dimension): Unit {
  return { canonical: '', dimension: d, factor: 1, offset: 0 };
}

/** The unit of counted things: `countUnit('cartridge', 'cartridges')`. */
export function countUnit(one: string, many: string): Unit {
  return { canonical: one, dimension: countOf(one), factor: 1, offset: 0, label: { one, many } };
}

/** The same unit for a rise or fall instead of a reading; other units are answered unchanged. */
export function differenceUnit(unit: Unit): Unit {
  if (unit.dimension !== dimension('temperature')) return unit;
  return { ...unit, dimension: dimension('temperature difference'), offset: 0 };
}
