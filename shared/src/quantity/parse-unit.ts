import { nearestFew } from '../nearest.ts';
import { type Dimension, dimension } from './dimension.ts';
import { everydayNotes, everydaySpellings } from './everyday.ts';
import { differenceUnit, type Unit } from './unit.ts';
import { readUnit, type UnitFault } from './unit-grammar.ts';
import { simpleUnits, usualUnits } from './unit-table.ts';

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

/** Whether a spelling is a unit's already, or looks like one. Sooner told than by `parseUnit`, which looks for what else was meant. */
export function isUnitSpelling(spelling: string): boolean {
  const plain = plainSpelling(spelling);
  if (everydaySpellings.has(plain)) return true;
  const read = readUnit(plain, nothingDeclared);
  return !('reason' in read) || read.reason === 'look_alike';
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
    units.push(d === dimension('temperature difference') ? differenceUnit(parsed.unit) : parsed.unit);
  }
  unitsByDimension.set(d.key, units);
  return units;
}

const longestSpelling = 60;
const mostRemembered = 4096;
const nothingDeclared: DeclaredUnits = new Map();
const remembered = new Map<string, ParsedUnit>();
const rememberedByDeclared = new WeakMap<DeclaredUnits, Map<string, ParsedUnit>>();
const unitsByDimension = new Map<string, readonly Unit[]>();

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
  const code = everydaySpellings.get(plain);
  if (code !== undefined) {
    const meant = parseAfresh(code, nothingDeclared, corrections);
    if (!meant.ok) return meant;
    const note = everydayNotes.get(spelling);
    return { ...meant, everyday: true, ...(note === undefined ? {} : { note }) };
  }
  const read = readUnit(plain, declared);
  if ('reason' in read) return refuse(read, plain, declared, corrections);
  const everyday = read.everyday || plain !== spelling;
  return { ok: true, unit: read.unit, canonical: read.unit.canonical, ...(everyday ? { everyday: true } : {}) };
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

function refuse(fault: UnitFault, text: string, declared: DeclaredUnits, corrections: number): RefusedUnit {
  const { reason, explanation, replacements = suggest(text.slice(fault.start, fault.end), declared) } = fault;
  const suggestions = new Set<string>();
  for (const replacement of replacements) {
    const whole = text.slice(0, fault.start) + replacement + text.slice(fault.end);
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
