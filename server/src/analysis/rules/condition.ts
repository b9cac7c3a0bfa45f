import type { Expr, PathNode } from '@curette/grammar';
import { compareSizes, type Quantity, type Size } from '@curette/shared';
import { secondsOf } from '../kinds/seconds.ts';
import type { Kind } from '../model.ts';
import type { Module } from '../names/module.ts';
import { kindNamed } from '../names/resolve.ts';
import { constantOf, difference, type Linear, linearOf, negated, type Reading, scaled, termsOf } from './linear.ts';

/**
 * A condition taken apart, so that two of them can be laid side by side: whether one holds wherever the other does. What the
 * names stand for is already told by common names, whatever each rule calls them.
 */
export type Condition =
  | { readonly type: 'all'; readonly parts: readonly Condition[] }
  | { readonly type: 'any'; readonly parts: readonly Condition[] }
  /** the form is nought or more; `strict`: more than nought */
  | { readonly type: 'bound'; readonly form: Linear; readonly strict: boolean }
  | { readonly type: 'size'; readonly subject: string; readonly op: SizeOp; readonly sides: Size }
  | { readonly type: 'kind'; readonly subject: string; readonly kind: Kind; readonly negated: boolean }
  /** `least` and `most`: for how long, in seconds */
  | {
      readonly type: 'state';
      readonly subject: string;
      readonly state: string;
      readonly least: number;
      readonly most: number;
      readonly negated: boolean;
    }
  /** what is only ever the same as itself */
  | { readonly type: 'fact'; readonly key: string; readonly negated: boolean };

type SizeOp = '<' | '<=' | '>' | '>=';

/** What the names of a rule's conditions stand for. */
export interface Names {
  /** of the file that the rule stands in */
  readonly module: Module;
  /** the common name of a pattern's name */
  readonly common: (name: string) => string;
  readonly kind: (name: string) => Kind | undefined;
}

/** A condition taken apart; a line that is not finished is a fact of its own. */
export function conditionOf(expr: Expr | undefined, names: Names): Condition {
  if (!expr) return { type: 'fact', key: '', negated: false };
  switch (expr.type) {
    case 'and':
      return { type: 'all', parts: [conditionOf(expr.left, names), conditionOf(expr.right, names)] };
    case 'or':
      return { type: 'any', parts: [conditionOf(expr.left, names), conditionOf(expr.right, names)] };
    case 'not':
      return opposite(conditionOf(expr.operand, names));
    case 'compare':
      return comparison(expr, names);
    case 'is': {
      const subject = keyOf(expr.subject, names);
      const name = expr.name?.text ?? '';
      const kind = kindNamed(names.module, name);
      if (kind && !expr.for) return { type: 'kind', subject, kind, negated: expr.negated };
      return stateOf(subject, name, expr.for, expr.negated, names);
    }
    case 'state':
      return stateOf(keyOf(expr.subject, names), expr.state.text, expr.for, false, names);
    default:
      return { type: 'fact', key: keyOf(expr, names), negated: false };
  }
}

/**
 * Whether `b` holds wherever `a` does. Only what can be shown is answered with yes: a no says that neither the one nor the other
 * is known.
 */
export function implies(a: Condition, b: Condition): boolean {
  if (b.type === 'all') return b.parts.every((part) => implies(a, part));
  if (a.type === 'any') return a.parts.every((part) => implies(part, b));
  if (a.type === 'all' && a.parts.some((part) => implies(part, b))) return true;
  if (b.type === 'any') return b.parts.some((part) => implies(a, part));
  return a.type !== 'all' && impliesOne(a, b);
}

/** The names and properties a condition speaks of, for finding the one that another has to be compared with. */
export function subjectsOf(condition: Condition): ReadonlySet<string> {
  switch (condition.type) {
    case 'all':
    case 'any':
      return new Set(condition.parts.flatMap((part) => [...subjectsOf(part)]));
    case 'bound':
      return new Set(termsOf(condition.form).flatMap(({ atoms }) => [...atoms.keys()]));
    case 'size':
    case 'kind':
    case 'state':
      return new Set([condition.subject]);
    case 'fact':
      return new Set([condition.key]);
    default:
      return condition satisfies never;
  }
}

/** The single conditions that a condition asks for all together. */
export function partsOf(condition: Condition): readonly Condition[] {
  return condition.type === 'all' ? condition.parts.flatMap(partsOf) : [condition];
}

type Single = Exclude<Condition, { type: 'all' | 'any' }>;

function impliesOne(a: Single, b: Single): boolean {
  switch (b.type) {
    case 'bound':
      return a.type === 'bound' && boundImplies(a, b);
    case 'size':
      return a.type === 'size' && a.subject === b.subject && sizeImplies(a, b);
    case 'kind':
      if (a.type !== 'kind' || a.subject !== b.subject || a.negated !== b.negated) return false;
      return a.negated ? within(b.kind, a.kind) : within(a.kind, b.kind);
    case 'state': {
      if (a.type !== 'state' || a.subject !== b.subject || a.state !== b.state || a.negated !== b.negated) return false;
      const [tight, loose] = a.negated ? [b, a] : [a, b];
      return tight.least >= loose.least && tight.most <= loose.most;
    }
    case 'fact':
      return a.type === 'fact' && a.key === b.key && a.negated === b.negated;
    default:
      return b satisfies never;
  }
}

/** Whether everything that is of a kind, or serves as it, is of the other. */
function within(kind: Kind, other: Kind): boolean {
  for (let k: Kind | undefined = kind; k; k = k.parent) if (k.name === other.name && k.file === other.file) return true;
  return false;
}

/**
 * Whether `b >= 0` follows from `a >= 0` for all values of what they speak of, none of which is below nought. By Farkas' lemma
 * (1902) in its affine form it does exactly when `b - k * a` has no negative part for some `k >= 0`.
 */
function boundImplies(
  a: { readonly form: Linear; readonly strict: boolean },
  b: { readonly form: Linear; readonly strict: boolean },
): boolean {
  let low = 0;
  let high = Number.POSITIVE_INFINITY;
  for (const key of new Set([...a.form.keys(), ...b.form.keys()])) {
    const given = a.form.get(key)?.factor ?? 0;
    const wanted = b.form.get(key)?.factor ?? 0;
    const signed = (a.form.get(key) ?? b.form.get(key))?.signed === true;
    if (given === 0) {
      if (signed ? wanted !== 0 : wanted < 0) return false;
      continue;
    }
    const ratio = wanted / given;
    if (signed || given > 0) high = Math.min(high, ratio);
    if (signed || given < 0) low = Math.max(low, ratio);
  }
  if (low > high * (1 + TOLERANCE) + Number.MIN_VALUE) return false;
  if (!b.strict) return true;
  // More than nought follows from more than nought, or where something is left over.
  const rest = (k: number) => constantOf(b.form) - k * constantOf(a.form);
  if (a.strict && high > 0) return true;
  return rest(low) > Math.abs(constantOf(b.form)) * TOLERANCE;
}

/** Numbers that differ by less than this part of themselves are the same: 0.35 N.m and 35 N.cm. */
const TOLERANCE = 1e-9;

function sizeImplies(a: Extract<Condition, { type: 'size' }>, b: Extract<Condition, { type: 'size' }>): boolean {
  if (a.op.charAt(0) !== b.op.charAt(0)) return false;
  const under = a.op.startsWith('<');
  const strictly = b.op.length === 1 && a.op.length === 2;
  return compareSizes(a.sides, strictly ? (under ? '<' : '>') : under ? '<=' : '>=', b.sides) === 'always';
}

function stateOf(subject: string, state: string, age: Expr | undefined, negated: boolean, names: Names): Condition {
  const limit = age?.type === 'quantity' ? names.module.quantity(age) : undefined;
  const time = limit && secondsOf(limit);
  if (age && !time) return { type: 'fact', key: `${subject} is ${state} for ${keyOf(age, names)}`, negated };
  const exact = age?.type === 'quantity' && age.form === 'exactly';
  const most = !time || (time.lo === time.hi && !exact) ? Number.POSITIVE_INFINITY : time.hi;
  return { type: 'state', subject, state, least: time ? Math.max(0, time.lo) : 0, most, negated };
}

function comparison(expr: Extract<Expr, { type: 'compare' }>, names: Names): Condition {
  const fact: Condition = { type: 'fact', key: keyOf(expr, names), negated: false };
  const { left, right, op } = expr;
  if (!right) return fact;
  if (right.type === 'size' || left.type === 'size') {
    const [subject, size] = right.type === 'size' ? [left, right] : [right, left];
    if (size.type !== 'size' || op === '=' || op === 'within') return fact;
    const sides = size.sides.map((side) => names.module.quantity(side)).filter((side) => side !== undefined);
    if (sides.length !== size.sides.length) return fact;
    return { type: 'size', subject: keyOf(subject, names), op: right.type === 'size' ? op : TURNED[op], sides };
  }
  if (op === 'within') {
    const bounds = rangeOf(right, names);
    return bounds
      ? all([
          ...(bounds.least ? [atLeast(left, bounds.least, false, names)] : []),
          ...(bounds.most ? [atLeast(bounds.most, left, false, names)] : []),
        ])
      : fact;
  }
  if (op === '=') {
    if (right.type === 'yes or no' || right.type === 'text') return fact;
    const both = [atLeast(left, right, false, names), atLeast(right, left, false, names)];
    return both.every((one) => one.type === 'bound') && !isName(right) ? all(both) : fact;
  }
  const strict = op === '<' || op === '>';
  const bound = op === '<' || op === '<=' ? atLeast(right, left, strict, names) : atLeast(left, right, strict, names);
  return bound.type === 'fact' ? fact : bound;
}

const TURNED = { '<': '>', '<=': '>=', '>': '<', '>=': '<=' } as const;

/** A name alone may be a word of a closed set, which is no measure. */
function isName(expr: Expr): boolean {
  return expr.type === 'path' && expr.names.length === 1;
}

function all(parts: readonly Condition[]): Condition {
  return { type: 'all', parts };
}

/** The two ends of what a value has to lie within. */
function rangeOf(
  right: Expr,
  names: Names,
): { readonly least: Expr | undefined; readonly most: Expr | undefined } | undefined {
  if (right.type === 'path') return { least: endOf(right, 'shortest'), most: endOf(right, 'longest') };
  if (right.type !== 'quantity') return undefined;
  const quantity = names.module.quantity(right);
  if (!quantity) return undefined;
  const { lo, hi } = quantity.range;
  const low = right.low && { ...right.low, unit: right.low.unit ?? right.high?.unit };
  const high = right.high ?? right.low;
  return {
    least: Number.isFinite(lo) && low ? { ...right, form: 'plain', low, high: undefined } : undefined,
    most: Number.isFinite(hi) && high ? { ...right, form: 'plain', low: high, high: undefined } : undefined,
  };
}

function endOf(path: PathNode, end: 'shortest' | 'longest'): PathNode {
  return { ...path, names: [...path.names, { text: end, start: path.end, end: path.end }] };
}

/** `left >= right`; what is the lesser or the greater of several is asked of each, or of one of them. */
function atLeast(left: Expr, right: Expr, strict: boolean, names: Names): Condition {
  const reading = readingOf(names);
  const [more, less] = [linearOf(left, reading), linearOf(right, reading)];
  if (!more || !less) return { type: 'fact', key: `${keyOf(left, names)} >= ${keyOf(right, names)}`, negated: false };
  return spread(difference(more, less), strict, reading);
}

function spread(form: Linear, strict: boolean, reading: Reading): Condition {
  for (const [key, { factor, dimension, choice }] of form) {
    if (!choice || dimension !== '') continue;
    const rest = new Map([...form].filter(([other]) => other !== key));
    const parts: Condition[] = [];
    for (const argument of choice.args) {
      const value = linearOf(argument, reading);
      if (!value) return { type: 'fact', key: [...form.keys()].join(' '), negated: false };
      const term = scaled(value, factor);
      parts.push(spread(difference(rest, negated(term)), strict, reading));
    }
    const each = (choice.fold === 'min') === factor > 0;
    return { type: each ? 'all' : 'any', parts };
  }
  return { type: 'bound', form, strict };
}

function opposite(condition: Condition): Condition {
  switch (condition.type) {
    case 'all':
    case 'any':
      return { type: condition.type === 'all' ? 'any' : 'all', parts: condition.parts.map(opposite) };
    case 'bound':
      return { type: 'bound', form: negated(condition.form), strict: !condition.strict };
    case 'size':
      return {
        type: 'fact',
        key: `${condition.subject} ${condition.op} ${condition.sides.map(sideKey).join(' by ')}`,
        negated: true,
      };
    case 'kind':
    case 'state':
    case 'fact':
      return { ...condition, negated: !condition.negated };
    default:
      return condition satisfies never;
  }
}

function sideKey(side: Quantity): string {
  return `${side.range.lo}..${side.range.hi} ${side.dimension.key}`;
}

function readingOf(names: Names): Reading {
  return {
    quantity: (node) => names.module.quantity(node),
    key: (expr) => keyOf(expr, names),
    signed: (path) => mayBeBelowNought(path, names),
  };
}

/** Whether what a property says it plausibly is reaches below nought. */
function mayBeBelowNought(path: PathNode, names: Names): boolean {
  const [first, ...rest] = path.names;
  let kind = first && names.kind(first.text);
  let low = 0;
  for (const { text } of rest) {
    const property = kind?.properties.get(text);
    low = property?.within?.range.lo ?? 0;
    kind = property?.type?.form === 'kind' ? kindNamed(names.module, property.type.kind.text) : undefined;
  }
  return Number.isFinite(low) && low < 0;
}

/** An expression as a text that is the same for the same thing, whichever rule it stands in. */
export function keyOf(expr: Expr | undefined, names: Names): string {
  if (!expr) return '';
  const inner = (part: Expr | undefined) => keyOf(part, names);
  switch (expr.type) {
    case 'path': {
      const [first, ...rest] = expr.names;
      return [names.common(first?.text ?? ''), ...rest.map(({ text }) => text)].join('.');
    }
    case 'quantity': {
      const quantity = names.module.quantity(expr);
      return quantity ? sideKey(quantity) : '';
    }
    case 'size':
      return expr.sides.map(inner).join(' by ');
    case 'text':
      return `"${expr.value}"`;
    case 'yes or no':
      return expr.value ? 'yes' : 'no';
    case 'and':
    case 'or':
      return `(${inner(expr.left)} ${expr.type} ${inner(expr.right)})`;
    case 'not':
      return `not ${inner(expr.operand)}`;
    case 'compare':
    case 'arithmetic':
      return `(${inner(expr.left)} ${expr.op} ${inner(expr.right)})`;
    case 'is':
      return `${inner(expr.subject)} is ${expr.negated ? 'not ' : ''}${expr.name?.text ?? ''} ${inner(expr.for)}`;
    case 'state':
      return `${inner(expr.subject)} is ${expr.state.text} ${inner(expr.for)}`;
    case 'relation':
      return `${inner(expr.subject)} ${expr.relation} ${expr.value?.text ?? ''}`;
    case 'call':
      return `${expr.name.text}(${expr.args.map(inner).join(', ')})`;
    default:
      return expr satisfies never;
  }
}
