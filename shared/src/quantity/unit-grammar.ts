import { type Dimension, dimension, fromPowers, type Power } from './dimension.ts';
import { everydaySpellings, lookAlikes } from './everyday.ts';
import type { Unit } from './unit.ts';
import { labels, type SimpleUnit, simpleUnits, turn } from './unit-table.ts';

/** Why a spelling is no unit, and which part of it is at fault. */
export interface UnitFault {
  readonly start: number;
  readonly end: number;
  readonly reason: 'unknown' | 'look_alike';
  /** What to write instead of that part; absent where only a search by nearest name can tell. */
  readonly replacements?: readonly string[];
  readonly explanation?: string;
}

/** A unit that was understood; `everyday` when some part of it was not written as its code. */
export interface UnitRead {
  readonly unit: Unit;
  readonly everyday: boolean;
}

/**
 * Reads a unit by the grammar of UCUM: `term := ['/'] component (('.' | '/') component)*`, left to right, a component
 * being a unit with its exponent or a term in parentheses.
 */
export function readUnit(text: string, declared: ReadonlyMap<string, Unit>): UnitRead | UnitFault {
  const reading: Reading = { text, declared, at: 0, depth: 0 };
  const part = readTerm(reading);
  if ('reason' in part) return part;
  if (reading.at < text.length) return { start: 0, end: text.length, reason: 'unknown' };
  return { unit: part.whole ?? unitOf(part), everyday: part.everyday };
}

interface Reading {
  readonly text: string;
  readonly declared: ReadonlyMap<string, Unit>;
  at: number;
  depth: number;
}

interface Part {
  readonly canonical: string;
  readonly label: string;
  readonly mantissa: number;
  readonly exponent: number;
  readonly powers: readonly Power[];
  /** A unit standing for itself, without power or product. */
  readonly whole?: Unit;
  readonly everyday: boolean;
}

/** Units in which a body is weighed. */
const bodyMassUnits = new Set(['kg', '[lb_av]']);

/** Per turn, when nothing else is said: a motor's speed. `/d` and `/wk` are how often, not how fast something turns. */
const rotationalSpeeds = new Set(['/min', '/s', '/h']);

function readTerm(reading: Reading): Part | UnitFault {
  const { text } = reading;
  let product: Part | undefined;
  let sign: 1 | -1 = 1;
  let joint = '';
  if (text[reading.at] === '/') {
    sign = -1;
    joint = '/';
    reading.at++;
  }
  for (;;) {
    const part = readComponent(reading);
    if ('reason' in part) return part;
    const single = product === undefined && sign === 1;
    product = single ? part : join(product, joint, part, sign);
    const next = text[reading.at];
    if (next !== '.' && next !== '/') return product;
    sign = next === '/' ? -1 : 1;
    joint = next;
    reading.at++;
  }
}

function join(left: Part | undefined, joint: string, right: Part, sign: 1 | -1): Part {
  return {
    canonical: (left?.canonical ?? '') + joint + right.canonical,
    label: (left?.label ?? '') + (joint === '.' ? '·' : joint) + right.label,
    mantissa: (left?.mantissa ?? 1) * right.mantissa ** sign,
    exponent: (left?.exponent ?? 0) + right.exponent * sign,
    powers: [...(left?.powers ?? []), ...right.powers.map(([base, e]): Power => [base, e * sign])],
    everyday: (left?.everyday ?? false) || right.everyday,
  };
}

function readComponent(reading: Reading): Part | UnitFault {
  const { text } = reading;
  const start = reading.at;
  if (text[start] === '(') return readGroup(reading);
  if (text[start] === '{') {
    const close = text.indexOf('}', start);
    const explanation = 'text in braces has no meaning as a unit; a counting word is declared: unit NAME is count';
    return { start, end: close < 0 ? text.length : close + 1, reason: 'unknown', replacements: [], explanation };
  }
  const end = endOfName(text, start);
  reading.at = end;
  return readSimple(reading, text.slice(start, end), start, end);
}

function readGroup(reading: Reading): Part | UnitFault {
  const start = reading.at;
  const unclosed: UnitFault = { start, end: reading.text.length, reason: 'unknown' };
  if (reading.depth >= 4) return unclosed;
  reading.at++;
  reading.depth++;
  const inner = readTerm(reading);
  reading.depth--;
  if ('reason' in inner) return inner;
  if (reading.text[reading.at] !== ')') return unclosed;
  reading.at++;
  const { whole: _alone, ...product } = inner;
  return { ...product, canonical: `(${inner.canonical})`, label: `(${inner.label})` };
}

/** A name runs to the next `.`, `/`, bracket or brace; what stands in `[ ]` belongs to it. */
function endOfName(text: string, start: number): number {
  let inSquare = false;
  let at = start;
  for (; at < text.length; at++) {
    const c = text[at] ?? '';
    if (c === '[') inSquare = true;
    else if (c === ']') inSquare = false;
    else if (!inSquare && './(){}'.includes(c)) break;
  }
  return at;
}

function readSimple(reading: Reading, written: string, start: number, end: number): Part | UnitFault {
  const alone = start === 0 && end === reading.text.length;
  const [, name = written, digits] = /^(.*?[^\d-])(-?[1-9])$/.exec(written) ?? [];
  const power = digits === undefined ? 1 : Number(digits);
  const trap = lookAlikes.get(name);
  if (trap !== undefined && !(name === 'm' && isPlainlyMetre(reading.text, power))) {
    const explanation =
      trap.reads === 'nothing'
        ? `"${name}" is no unit: capital and small letters count`
        : `"${name}" stands for ${trap.reads}`;
    const replacements = trap.suggestions.map((s) => s + (digits ?? ''));
    return { start, end, reason: 'look_alike', replacements, explanation };
  }
  const code = everydaySpellings.get(name);
  const simple = simpleUnits.get(code ?? name);
  if (simple !== undefined) {
    if (simple.offset !== 0 && !alone) {
      const explanation = `"${name}" is a thermometer's scale and stands alone`;
      return { start, end, reason: 'unknown', replacements: [], explanation };
    }
    return partOf(simple, power, digits, alone, code !== undefined);
  }
  const declared = reading.declared.get(written);
  if (declared !== undefined) return declaredPart(declared, written !== declared.canonical && !alone);
  return { start, end, reason: 'unknown' };
}

/** `m2`, `N.m`: nobody means minutes or months there. */
function isPlainlyMetre(text: string, power: number): boolean {
  return Math.abs(power) > 1 || /(^|[.(])[mck]?N[.]m$/.test(text);
}

function partOf(
  simple: SimpleUnit,
  power: number,
  digits: string | undefined,
  alone: boolean,
  everyday: boolean,
): Part {
  const { code, mantissa, exponent } = simple;
  const label = labels[code]?.one ?? code;
  const ofBody = bodyMassUnits.has(code);
  const part: Part = {
    canonical: code + (digits ?? ''),
    label: label + raised(digits),
    mantissa: mantissa ** power,
    exponent: exponent * power,
    powers: simple.dimension.powers.map(([base, e]): Power => [ofBody ? 'body mass' : base, e * power]),
    everyday,
  };
  return alone && power === 1 ? { ...part, whole: wholeUnit(simple) } : part;
}

function wholeUnit(simple: SimpleUnit): Unit {
  const { code, offset } = simple;
  const factor = scaled(simple.mantissa, simple.exponent);
  const unit = { canonical: code, dimension: simple.dimension, factor, offset };
  const label = labels[code];
  return label === undefined ? unit : { ...unit, label };
}

function declaredPart(unit: Unit, everyday: boolean): Part {
  return {
    canonical: unit.canonical,
    label: unit.label?.one ?? unit.canonical,
    mantissa: unit.factor,
    exponent: 0,
    powers: unit.dimension.powers,
    whole: unit,
    everyday,
  };
}

function raised(digits: string | undefined): string {
  return (digits ?? '').replace(/./g, (c) => raisedSigns[c] ?? c);
}

const raisedSigns: Readonly<Record<string, string>> = { '-': '⁻', '1': '¹', '2': '²', '3': '³', '4': '⁴' };

/** `mantissa × 10^exponent`, rounded once. */
function scaled(mantissa: number, exponent: number): number {
  return exponent >= 0 ? mantissa * 10 ** exponent : mantissa / 10 ** -exponent;
}

function unitOf(part: Part): Unit {
  const d = dimensionOf(part);
  const factor = scaled(part.mantissa, part.exponent);
  const known = labels[part.canonical];
  const label = known ?? (part.label === part.canonical ? undefined : { one: part.label, many: part.label });
  const unit = { canonical: part.canonical, dimension: d, factor, offset: 0 };
  return label === undefined ? unit : { ...unit, label };
}

function dimensionOf(part: Part): Dimension {
  if (rotationalSpeeds.has(part.canonical)) return fromPowers([...turn.powers, ...part.powers]);
  const d = fromPowers(withBodyMass(part.powers));
  return d.powers.length === 0 ? dimension('ratio') : d;
}

/** The kilogram or pound that something is given per is the body's; any other is a mass like the rest. */
function withBodyMass(powers: readonly Power[]): readonly Power[] {
  let perBody = 0;
  for (const [base, exponent] of powers) if (base === 'body mass') perBody += exponent;
  return perBody === -1 ? powers : powers.map(([base, e]): Power => [base === 'body mass' ? 'mass' : base, e]);
}
