import { nearestFew } from '../nearest.ts';
import { type Dimension, dimension, fromPowers, type Power } from './dimension.ts';
import { everydayNotes, everydaySpellings, lookAlikes } from './everyday.ts';
import type { Unit } from './unit.ts';
import { type Atom, atoms, labels, prefixExponents, turn, usualUnits } from './unit-table.ts';

/** What became of a unit's spelling. */
export type ParsedUnit = KnownUnit | RefusedUnit;

export interface KnownUnit {
  readonly ok: true;
  readonly unit: Unit;
  /** The spelling the formatter writes. */
  readonly canonical: string;
  /** Present when the spelling is the trade's and not the code. */
  readonly everyday?: true;
  /** Why the everyday spelling is better not written, where it is known to be misread. */
  readonly note?: string;
}

export interface RefusedUnit {
  readonly ok: false;
  /** `look_alike`: it is another unit's code, or differs from one by letter case only. */
  readonly reason: 'unknown' | 'look_alike';
  /** Spellings that would be understood, most likely first; may be empty. */
  readonly suggestions: readonly string[];
  /** One sentence without its full stop, where there is more to say than "unknown". */
  readonly explanation?: string;
}

/** The units a file's `unit` declarations add, by every spelling (`drop`, `drops`). Treated as immutable. */
export type DeclaredUnits = ReadonlyMap<string, Unit>;

/**
 * Reads the spelling of a unit: a code of UCUM's case-sensitive form, the trade's everyday spelling of one, a declared
 * unit, or a product of these (`mg/mL`, `N.cm`, `mm2`, `mg/(kg.h)`; `/` does not group: `a/b.c` is `(a/b).c`).
 * Built-in codes come before declared ones, so `mg` can never be redefined. Remembers its answers.
 */
export function parseUnit(spelling: string, declared?: DeclaredUnits): ParsedUnit {
  const memory = declared === undefined || declared.size === 0 ? remembered : memoryOf(declared);
  const known = memory.get(spelling);
  if (known !== undefined) return known;
  const parsed = parseAfresh(spelling, declared ?? nothingDeclared, 0);
  if (memory.size >= mostRemembered) memory.clear();
  memory.set(spelling, parsed);
  return parsed;
}

/** Every single unit's code the language knows, prefixes included: `mm`, `um`, `mL`, `[lb_av]`, … */
export function unitCodes(): readonly string[] {
  return [...simpleUnits.keys()];
}

/** The usual units of a dimension, for completion and for showing what was computed; most usual first. */
export function unitsOf(d: Dimension): readonly Unit[] {
  const known = unitsByDimension.get(d.key);
  if (known !== undefined) return known;
  const codes = Object.hasOwn(usualUnits, d.name) ? usualUnits[d.name as keyof typeof usualUnits] : [];
  const units: Unit[] = [];
  for (const code of codes) {
    const parsed = parseUnit(code);
    if (!parsed.ok) continue;
    const { unit } = parsed;
    const asDifference = d === dimension('temperature difference') && unit.offset !== 0;
    units.push(asDifference ? { ...unit, dimension: d, offset: 0 } : unit);
  }
  unitsByDimension.set(d.key, units);
  return units;
}

interface Simple extends Pick<Atom, 'dimension' | 'mantissa' | 'exponent'> {
  readonly code: string;
  readonly offset: number;
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

interface Failure {
  readonly start: number;
  readonly end: number;
  readonly reason: RefusedUnit['reason'];
  readonly replacements: readonly string[];
  readonly explanation?: string;
}

interface Reading {
  readonly text: string;
  readonly declared: DeclaredUnits;
  at: number;
  depth: number;
}

const longestSpelling = 60;
const mostRemembered = 4096;
const nothingDeclared: DeclaredUnits = new Map();
const remembered = new Map<string, ParsedUnit>();
const rememberedByDeclared = new WeakMap<DeclaredUnits, Map<string, ParsedUnit>>();
const unitsByDimension = new Map<string, readonly Unit[]>();
const simpleUnits = withPrefixes(atoms);
/** Units in which a body is weighed. */
const bodyMassUnits = new Set(['kg', '[lb_av]']);

/** Per turn, when nothing else is said: a motor's speed. `/d` and `/wk` are how often, not how fast something turns. */
const rotationalSpeeds = new Set(['/min', '/s', '/h']);
const rotationalSpellings: ReadonlyMap<string, string> = new Map([
  ['{rev}/min', '/min'],
  ['{rev}/s', '/s'],
  ['1/min', '/min'],
  ['1/s', '/s'],
  ['min-1', '/min'],
  ['s-1', '/s'],
]);

function memoryOf(declared: DeclaredUnits): Map<string, ParsedUnit> {
  let memory = rememberedByDeclared.get(declared);
  if (memory === undefined) {
    memory = new Map();
    rememberedByDeclared.set(declared, memory);
  }
  return memory;
}

function parseAfresh(spelling: string, declared: DeclaredUnits, corrections: number): ParsedUnit {
  if (spelling.length > longestSpelling) return { ok: false, reason: 'unknown', suggestions: [] };
  const plain = plainSpelling(spelling);
  const code = everydaySpellings.get(plain) ?? rotationalSpellings.get(plain);
  if (code !== undefined) {
    const meant = parseAfresh(code, nothingDeclared, corrections);
    if (!meant.ok) return meant;
    const note = everydayNotes.get(spelling);
    return { ...meant, everyday: true, ...(note === undefined ? {} : { note }) };
  }
  const reading: Reading = { text: plain, declared, at: 0, depth: 0 };
  const part = readTerm(reading);
  if ('reason' in part) return refuse(part, plain, declared, corrections);
  if (reading.at < plain.length) return { ok: false, reason: 'unknown', suggestions: suggest(plain, declared) };
  const unit = part.whole ?? unitOf(part);
  const everyday = part.everyday || plain !== spelling;
  return { ok: true, unit, canonical: unit.canonical, ...(everyday ? { everyday: true } : {}) };
}

/** Signs that people type for the code's own: `mm²`, `mm^2`, `N·cm`, `min⁻¹`. */
function plainSpelling(spelling: string): string {
  return spelling
    .replace(/⁻/g, '-')
    .replace(/[¹²³]/g, (sign) => ({ '¹': '1', '²': '2', '³': '3' })[sign] ?? sign)
    .replace(/\^(?=-?\d)/g, '')
    .replace(/[·⋅×*]/g, '.')
    .replace(/[μ]/g, 'µ');
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

/** `term := ['/'] component (('.' | '/') component)*`, as UCUM reads it: left to right. */
function readTerm(reading: Reading): Part | Failure {
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

function readComponent(reading: Reading): Part | Failure {
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

function readGroup(reading: Reading): Part | Failure {
  const start = reading.at;
  const unclosed: Failure = { start, end: reading.text.length, reason: 'unknown', replacements: [] };
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

function readSimple(reading: Reading, written: string, start: number, end: number): Part | Failure {
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
  return { start, end, reason: 'unknown', replacements: suggest(written, reading.declared) };
}

/** `m2`, `N.m`: nobody means minutes or months there. */
function isPlainlyMetre(text: string, power: number): boolean {
  return Math.abs(power) > 1 || /(^|[.(])[mck]?N[.]m$/.test(text);
}

function partOf(simple: Simple, power: number, digits: string | undefined, alone: boolean, everyday: boolean): Part {
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

function wholeUnit(simple: Simple): Unit {
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

function refuse(failure: Failure, text: string, declared: DeclaredUnits, corrections: number): RefusedUnit {
  const { reason, explanation, replacements } = failure;
  const suggestions = new Set<string>();
  for (const replacement of replacements) {
    const whole = text.slice(0, failure.start) + replacement + text.slice(failure.end);
    const parsed = parseAfresh(whole, declared, corrections + 1);
    if (parsed.ok) suggestions.add(parsed.canonical);
    else if (corrections < 3) for (const further of parsed.suggestions) suggestions.add(further);
  }
  return { ok: false, reason, suggestions: [...suggestions].slice(0, 3), ...(explanation && { explanation }) };
}

function suggest(name: string, declared: DeclaredUnits): string[] {
  if (name === '') return [];
  const candidates = [...declared.keys(), ...Object.values(usualUnits).flat(), ...simpleUnits.keys()];
  const codes = nearestFew(name, [...candidates, ...everydaySpellings.keys()], 6).map(
    (near) => everydaySpellings.get(near) ?? near,
  );
  return [...new Set(codes)].slice(0, 3);
}

function withPrefixes(table: readonly Atom[]): Map<string, Simple> {
  const all = new Map<string, Simple>();
  for (const { code, dimension: d, mantissa, exponent, prefixes, offset = 0 } of table) {
    // Mercury's column is only ever read in millimetres or centimetres, metres only inside a torque or an area.
    if (code !== 'm[Hg]') all.set(code, { code, dimension: d, mantissa, exponent, offset });
    for (const prefix of prefixes) {
      const prefixed = prefix + code;
      all.set(prefixed, {
        code: prefixed,
        dimension: d,
        mantissa,
        exponent: exponent + prefixExponents[prefix],
        offset,
      });
    }
  }
  return all;
}
