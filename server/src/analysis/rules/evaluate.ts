import type { Expr, PathNode } from '@curette/grammar';
import {
  add,
  type Computed,
  type Dimension,
  divide,
  greatest,
  least,
  longest,
  multiply,
  plainNumber,
  type Quantity,
  type Size,
  shortest,
  subtract,
} from '@curette/shared';
import { plain } from '../../problems/words.ts';
import type { FigureGap, Value } from '../model.ts';
import type { Module } from '../names/module.ts';
import type { Filling } from '../protocol/step.ts';
import type { Thing } from '../protocol/things.ts';
import { amountInUse } from './amount.ts';
import { asksTotal, leftOver } from './wanted-measure.ts';

/** What an expression amounts to. `unknown` says in plain words what would have to be stated to tell. */
export type Evaluated =
  | Exclude<Value, { type: 'number' }>
  | { readonly type: 'thing'; readonly thing: Thing }
  | ({ readonly type: 'unknown' } & Unsaid);

/** What would have to be stated to tell; `gap` where a set of figures would have to state it. */
export interface Unsaid {
  readonly missing: string;
  readonly gap?: FigureGap | undefined;
}

/** A condition's answer. `undecided` says what would have to be stated; it never passes for an answer. */
export type Answer =
  | { readonly answer: 'always' | 'never' | 'sometimes' }
  | ({ readonly answer: 'undecided' } & Unsaid);

/** What the names of an expression stand for. */
export interface Environment {
  readonly module: Module;
  readonly filling: (name: string) => Filling | undefined;
  readonly thing: (name: string) => Thing | undefined;
  /** whether a thing is in a state; undefined where states are not followed */
  readonly state: ((thing: Thing, state: string, forAtLeast: Quantity | undefined) => Answer) | undefined;
  /** whether one of its values was found before; undefined where findings are not followed */
  readonly found?: ((finding: string, value: string) => Answer) | undefined;
  /** stands for what is stated of a thing, or not stated: how a comparison is solved */
  readonly fact?: ((thing: Thing, property: string) => Quantity | undefined) | undefined;
  /** whether somebody has, takes or is allergic to something, where it is not known of the one patient of a case */
  readonly relation?: ((relation: string) => boolean | undefined) | undefined;
  /** what steps use up of things; undefined where nothing adds up */
  readonly totals?: Totals | undefined;
}

/** What a rule about totals speaks of. */
export interface Totals {
  /** what is used up of a thing in the measure that is wanted, or, where any will do, in its own */
  readonly of: (thing: Thing, wanted: Dimension | undefined, env: Environment) => Evaluated;
  /** the given fact that a total hangs on besides what is written in the steps: so much per body mass */
  readonly hangsOn: (thing: Thing) => { readonly thing: Thing; readonly property: string } | undefined;
  /** the name in a rule that stands for each of several things taken together, and these */
  readonly together: { readonly name: string; readonly things: readonly Thing[] } | undefined;
}

/**
 * The value of an expression.
 * @param wanted what a total in it has to come to measure, from what it is compared with
 */
export function evaluate(expr: Expr | undefined, env: Environment, wanted?: Dimension): Evaluated {
  if (!expr) return { type: 'unknown', missing: 'the rest of the line' };
  switch (expr.type) {
    case 'quantity': {
      const quantity = env.module.quantity(expr);
      return quantity ? { type: 'quantity', quantity } : { type: 'unknown', missing: 'a quantity with a known unit' };
    }
    case 'size': {
      const sides = expr.sides.map((side) => env.module.quantity(side)).filter((side) => side !== undefined);
      return sides.length === expr.sides.length
        ? { type: 'size', sides }
        : { type: 'unknown', missing: 'a size with known units' };
    }
    case 'text':
      return { type: 'text', value: expr.value };
    case 'yes or no':
      return { type: 'yes or no', value: expr.value };
    case 'path':
      return evaluatePath(expr, env);
    case 'arithmetic': {
      const [left, right] = operands(expr, env, wanted);
      if (!left.ok) return left.unknown;
      if (!right.ok) return right.unknown;
      const operation = { '+': add, '-': subtract, '*': multiply, '/': divide }[expr.op];
      return fromComputed(operation(left.quantity, right.quantity));
    }
    case 'call':
      return evaluateCall(expr, env, wanted);
    default:
      return { type: 'unknown', missing: 'a value' };
  }
}

/** Both sides of a comparison; a total on one of them comes in the measure of the other. */
export function sides(
  expr: Extract<Expr, { type: 'compare' }>,
  env: Environment,
): readonly [left: Evaluated, right: Evaluated] {
  if (env.totals && asksTotal(expr.left)) {
    const right = evaluate(expr.right, env);
    if (right.type === 'unknown') return [right, right];
    return [evaluate(expr.left, env, measureOf(right)), right];
  }
  const left = evaluate(expr.left, env);
  return [left, evaluate(expr.right, env, env.totals && measureOf(left))];
}

function measureOf(value: Evaluated): Dimension | undefined {
  return value.type === 'quantity' ? value.quantity.dimension : undefined;
}

/** Both operands of a sum; a total in one of them comes in the measure that makes the whole measure what is wanted. */
function operands(expr: Extract<Expr, { type: 'arithmetic' }>, env: Environment, wanted: Dimension | undefined) {
  const first = env.totals !== undefined && asksTotal(expr.left) ? 'right' : 'left';
  const one = numeric(evaluate(expr[first], env));
  const other = numeric(
    evaluate(
      expr[first === 'left' ? 'right' : 'left'],
      env,
      one.ok ? leftOver(expr.op, first, one.quantity.dimension, wanted) : undefined,
    ),
  );
  return first === 'left' ? ([one, other] as const) : ([other, one] as const);
}

function evaluatePath(path: PathNode, env: Environment): Evaluated {
  const [first, ...rest] = path.names;
  if (!first) return { type: 'unknown', missing: 'a name' };
  const filling = env.filling(first.text);
  let value: Evaluated;
  if (filling) value = fromFilling(filling);
  else {
    const thing = env.thing(first.text);
    if (thing) value = { type: 'thing', thing };
    else if (rest.length === 0) value = { type: 'name', name: first.text };
    else return { type: 'unknown', missing: `what "${first.text}" is` };
  }
  for (const name of rest) value = property(value, name.text, env);
  return value;
}

function property(value: Evaluated, name: string, env: Environment): Evaluated {
  if (value.type === 'unknown') return value;
  if (value.type === 'quantity') {
    const end =
      name === 'longest' ? longest(value.quantity) : name === 'shortest' ? shortest(value.quantity) : undefined;
    return end ? { type: 'quantity', quantity: end } : { type: 'unknown', missing: `the ${name} of an open range` };
  }
  if (value.type === 'size') return ofSize(value.sides, name);
  const thing = value.type === 'name' ? env.thing(value.name) : value.type === 'thing' ? value.thing : undefined;
  if (!thing) return { type: 'unknown', missing: `the ${name.replaceAll('_', ' ')}` };
  if (name === 'amount') {
    const amount = amountInUse(thing);
    if (!amount) return { type: 'unknown', missing: `the amount of ${thing.label}` };
    return 'range' in amount ? { type: 'quantity', quantity: amount } : { type: 'size', sides: amount };
  }
  const solved = env.fact?.(thing, name);
  if (solved) return { type: 'quantity', quantity: solved };
  const stated = thing.values.get(name)?.values[0];
  if (!stated)
    return {
      type: 'unknown',
      missing: `the ${name.replaceAll('_', ' ')} of ${thing.label}`,
      gap: thing.gaps.get(name),
    };
  if (stated.type === 'number') return { type: 'quantity', quantity: plainNumber(stated.value) };
  if (stated.type === 'name') {
    const named = env.thing(stated.name);
    if (named) return { type: 'thing', thing: named };
  }
  return stated;
}

/** A member of a size: the longer or the shorter of its sides, whichever that turns out to be, or what they enclose. */
function ofSize(sides: Size, name: string): Evaluated {
  const member = SIZE_MEMBERS.get(name);
  const [first, ...rest] = sides;
  if (!member || !first) return { type: 'unknown', missing: `the ${plain(name)} of a size` };
  if (member.sides !== undefined && member.sides !== sides.length)
    return { type: 'unknown', missing: `a size with ${member.sides} sides, to tell its ${plain(name)}` };
  let result = first;
  for (const side of rest) {
    const joined = member.join(result, side);
    if (!joined.ok) return fromComputed(joined);
    result = joined.quantity;
  }
  return { type: 'quantity', quantity: result };
}

const SIZE_MEMBERS: ReadonlyMap<string, { readonly join: typeof add; readonly sides: number | undefined }> = new Map([
  ['long_side', { join: greatest, sides: undefined }],
  ['short_side', { join: least, sides: undefined }],
  ['area', { join: multiply, sides: 2 }],
  ['volume', { join: multiply, sides: 3 }],
]);

function fromFilling(filling: Filling): Evaluated {
  switch (filling.type) {
    case 'things': {
      const [first] = filling.things;
      return first ? { type: 'thing', thing: first.thing } : { type: 'unknown', missing: 'the thing' };
    }
    case 'quantity':
      return { type: 'quantity', quantity: filling.quantity };
    case 'size':
      return { type: 'size', sides: filling.sides };
    case 'text':
      return { type: 'text', value: filling.text };
    default:
      return filling satisfies never;
  }
}

/** Whether a call takes all things of a rule about totals together: `sum(…)` with one value asked of each. */
export function takesTogether(expr: Extract<Expr, { type: 'call' }>): boolean {
  return FOLDS.has(expr.name.text) && expr.args.length === 1;
}

const FOLDS: ReadonlyMap<string, typeof add> = new Map([
  ['min', least],
  ['max', greatest],
  ['sum', add],
]);

/** The environment in which a name stands for one of several things taken together. */
export function withEach(env: Environment, name: string, thing: Thing): Environment {
  const filling: Filling = { type: 'things', things: [{ thing, span: { start: 0, end: 0 } }] };
  return { ...env, filling: (other) => (other === name ? filling : env.filling(other)) };
}

function evaluateCall(
  expr: Extract<Expr, { type: 'call' }>,
  env: Environment,
  wanted: Dimension | undefined,
): Evaluated {
  const [only] = expr.args;
  if (expr.name.text === 'total' && env.totals) {
    const value = evaluate(only, env);
    if (value.type === 'thing') return env.totals.of(value.thing, wanted, env);
    return { type: 'unknown', missing: missingOf(value, 'the thing that adds up'), gap: gapOf(value) };
  }
  const fold = FOLDS.get(expr.name.text);
  if (!fold) return { type: 'unknown', missing: `what "${expr.name.text}" adds up to` };
  const together = takesTogether(expr) ? env.totals?.together : undefined;
  let measure: Dimension | undefined;
  let result: Quantity | undefined;
  const values = together
    ? together.things.map((thing) => () => evaluate(only, withEach(env, together.name, thing), wanted))
    : expr.args.map((argument) => () => evaluate(argument, env, wanted ?? measure));
  for (const next of values) {
    const value = numeric(next());
    if (!value.ok) return value.unknown;
    const joined: Computed = result ? fold(result, value.quantity) : { ok: true, quantity: value.quantity };
    if (!joined.ok) return fromComputed(joined);
    result = joined.quantity;
    measure = result.dimension;
  }
  return result ? { type: 'quantity', quantity: result } : { type: 'unknown', missing: 'a value' };
}

function numeric(
  value: Evaluated,
): { readonly ok: true; readonly quantity: Quantity } | { readonly ok: false; readonly unknown: Evaluated } {
  if (value.type === 'quantity') return { ok: true, quantity: value.quantity };
  return { ok: false, unknown: { type: 'unknown', missing: missingOf(value, 'a quantity'), gap: gapOf(value) } };
}

function fromComputed(result: Computed): Evaluated {
  return result.ok
    ? { type: 'quantity', quantity: result.quantity }
    : { type: 'unknown', missing: 'a sum whose measures fit together' };
}

export function missingOf(value: Evaluated, wanted: string): string {
  return value.type === 'unknown' ? value.missing : wanted;
}

export function gapOf(value: Evaluated): FigureGap | undefined {
  return value.type === 'unknown' ? value.gap : undefined;
}
