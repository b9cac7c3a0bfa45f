/** Quantities as a protocol writes them, so that tests read like one: `q('10..40 min')`, `q('at least 2 cartridges')`. */
import {
  atLeast,
  atMost,
  bareUnit,
  between,
  type DeclaredUnits,
  declareUnit,
  exactly,
  numberDimension,
  over,
  parseUnit,
  type Quantity,
  type Unit,
  under,
} from '@curette/shared';

/** Units that a library declares: a drop by its volume, two counting words. */
export const declared: DeclaredUnits = declaredUnits();

export function unit(spelling: string): Unit {
  if (spelling === '') return bareUnit(numberDimension);
  const parsed = parseUnit(spelling, declared);
  if (!parsed.ok) throw new Error(`no unit: ${spelling}`);
  return parsed.unit;
}

export function q(written: string): Quantity {
  const match = /^(at least |at most |over |under |)(-?[\d.]+?)(?:\.\.(-?[\d.]+))?(?: (.+))?$/.exec(written);
  const [, word = '', lo = '', hi, spelling = ''] = match ?? [];
  const measured = unit(spelling);
  const range = hi === undefined ? undefined : between(Number(lo), Number(hi), measured);
  if (match === null || (hi !== undefined && range === undefined)) throw new Error(`no quantity: ${written}`);
  if (range !== undefined) return range;
  const make = { 'at least ': atLeast, 'at most ': atMost, 'over ': over, 'under ': under }[word] ?? exactly;
  return make(Number(lo), measured);
}

function declaredUnits(): DeclaredUnits {
  const units = new Map<string, Unit>();
  const add = (names: [string, string], is: Quantity | 'count'): void => {
    const made = declareUnit(names, is);
    if (typeof made === 'string') throw new Error(`${names[0]}: ${made}`);
    for (const name of names) units.set(name, made);
  };
  const millilitre = parseUnit('mL');
  if (millilitre.ok) add(['drop', 'drops'], exactly(0.05, millilitre.unit));
  add(['cartridge', 'cartridges'], 'count');
  add(['increment', 'increments'], 'count');
  return units;
}
