import { fromBase, type Quantity, type Size } from './quantity.ts';
import { isPoint } from './range.ts';
import type { Unit } from './unit.ts';

export interface NumberStyle {
  /** Significant digits at most; 6 unless said. */
  readonly digits?: number;
  /**
   * Which way an end is rounded when digits are dropped: to the nearest, or `outward`, so that what is shown never
   * covers less than what was computed. `nearest` unless said.
   */
  readonly rounding?: 'nearest' | 'outward';
}

/** For people: `10–40 min`, `at least 10 min`, `under 19.4 kg`, `2 cartridges`, `4–6 months`, `0.5 mL`. */
export function formatQuantity(q: Quantity, style: NumberStyle = {}): string {
  return phrase(q, { between: '–', style, unit: peopleUnit });
}

/** As it is written in a protocol: `10..40 min`, `at least 10 min`, `2 cartridges`. */
export function formatSource(q: Quantity): string {
  return phrase(q, { between: '..', style: { digits: exactDigits }, unit: sourceUnit });
}

/** For people: `15 × 20 mm`, `7–9 × 6–8 mm`. */
export function formatSize(size: Size, style: NumberStyle = {}): string {
  const [first] = size;
  const oneUnit = first !== undefined && size.every((q) => q.unit.canonical === first.unit.canonical && isBounded(q));
  if (!oneUnit) return size.map((q) => formatQuantity(q, style)).join(' × ');
  const bare = size.map((q) => phrase(q, { between: '–', style, unit: () => '' }));
  return bare.join(' × ') + peopleUnit(first.unit, false);
}

/** As it is written in a protocol: `15 mm by 20 mm`. */
export function formatSizeSource(size: Size): string {
  return size.map(formatSource).join(' by ');
}

/**
 * A number without exponent, without the noise of binary fractions and without trailing noughts, with at most `digits`
 * significant digits.
 */
export function formatNumber(value: number, digits = 6): string {
  if (!Number.isFinite(value)) return value > 0 ? 'without limit' : 'without lower limit';
  return plainDecimal(Number(value.toPrecision(Math.max(digits, wholeDigits(value)))));
}

const exactDigits = 12;

interface Phrasing {
  readonly between: string;
  readonly style: NumberStyle;
  readonly unit: (unit: Unit, one: boolean) => string;
}

function phrase(q: Quantity, how: Phrasing): string {
  const { range, unit } = q;
  const low = end(fromBase(range.lo, unit), how.style, 'down');
  const high = end(fromBase(range.hi, unit), how.style, 'up');
  const bare = low.startsWith('-') ? ' to ' : how.between;
  const between = how.between === '..' ? '..' : bare;
  if (isPoint(range)) {
    const value = end(fromBase(range.lo, unit), { ...how.style, rounding: 'nearest' }, 'down');
    return value + how.unit(unit, value === '1');
  }
  const one = (value: string): string => value + how.unit(unit, value === '1');
  const bounded = { lo: Number.isFinite(range.lo), hi: Number.isFinite(range.hi) };
  if (!bounded.lo && !bounded.hi) return 'any amount';
  if (!bounded.hi) return `${range.openLo ? 'over' : 'at least'} ${one(low)}`;
  if (!bounded.lo) return `${range.openHi ? 'under' : 'at most'} ${one(high)}`;
  if (range.openLo || range.openHi) {
    if (how.between !== '..' && range.openHi && !range.openLo && low === '0') return `under ${one(high)}`;
    return `${range.openLo ? 'over' : 'at least'} ${one(low)} and ${range.openHi ? 'under' : 'at most'} ${one(high)}`;
  }
  return (low === high ? low : low + between + high) + how.unit(unit, low === high && low === '1');
}

function end(value: number, style: NumberStyle, outward: 'up' | 'down'): string {
  const digits = style.digits ?? 6;
  if (style.rounding !== 'outward' || !Number.isFinite(value) || value === 0) return formatNumber(value, digits);
  const clean = Number(value.toPrecision(exactDigits));
  const step = 10 ** (Math.floor(Math.log10(Math.abs(clean))) + 1 - digits);
  const steps = Number((clean / step).toPrecision(exactDigits));
  return plainDecimal(
    Number(((outward === 'up' ? Math.ceil(steps) : Math.floor(steps)) * step).toPrecision(exactDigits)),
  );
}

function sourceUnit(unit: Unit, one: boolean): string {
  if (unit.canonical === '') return '';
  const counted = unit.label !== undefined && unit.label.one === unit.canonical;
  return ` ${counted && !one ? unit.label.many : unit.canonical}`;
}

function peopleUnit(unit: Unit, one: boolean): string {
  const written = unit.label === undefined ? unit.canonical : one ? unit.label.one : unit.label.many;
  if (written === '') return '';
  return written === '°' || written === '%' ? written : ` ${written}`;
}

function isBounded(q: Quantity): boolean {
  const { lo, hi, openLo, openHi } = q.range;
  return Number.isFinite(lo) && Number.isFinite(hi) && !openLo && !openHi;
}

/** Digits before the point: a whole number is never rounded to noughts. */
function wholeDigits(value: number): number {
  const size = Math.abs(value);
  return size < 1 ? 1 : Math.min(15, Math.floor(Math.log10(size)) + 1);
}

function plainDecimal(value: number): string {
  const text = String(value);
  if (!text.includes('e')) return text;
  if (Math.abs(value) >= 1) return BigInt(value).toString();
  return value.toFixed(Math.min(100, exactDigits - Math.floor(Math.log10(Math.abs(value))))).replace(/\.?0+$/, '');
}
