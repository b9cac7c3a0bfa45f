import type { Expr } from '@curette/grammar';
import { type Environment, evaluate } from './evaluate.ts';
import { eachWay, type OpenFact, readsLast, withFact } from './open-fact.ts';

/** With a greater value: a value grows, a condition comes to hold (`up`); the opposite (`down`); nothing changes. */
export type Trend = 'up' | 'down' | 'constant';

/**
 * How a value or a condition moves with a fact, where that follows from how it is built: sums, least and greatest move as their parts
 * do, products and quotients of what is not negative as their factors. Undefined where parts pull either way.
 */
export function trend(expr: Expr | undefined, env: Environment, fact: OpenFact): Trend | undefined {
  const of = (part: Expr | undefined) => trend(part, env, fact);
  switch (expr?.type) {
    case 'and':
    case 'or':
      return joint(of(expr.left), of(expr.right));
    case 'not':
      return against(of(expr.operand));
    case 'compare': {
      const [left, right] = [of(expr.left), of(expr.right)];
      if (expr.op === '<' || expr.op === '<=') return joint(against(left), right);
      if (expr.op === '>' || expr.op === '>=') return joint(left, against(right));
      return left === 'constant' && right === 'constant' ? 'constant' : undefined;
    }
    case 'arithmetic': {
      const [left, right] = [of(expr.left), of(expr.right)];
      if (left === 'constant' && right === 'constant') return 'constant';
      if (expr.op === '+') return joint(left, right);
      if (expr.op === '-') return joint(left, against(right));
      if (!notNegative(expr.left, env, fact) || !notNegative(expr.right, env, fact)) return undefined;
      return joint(left, expr.op === '*' ? right : against(right));
    }
    case 'call':
      if (expr.name.text === 'total') {
        const thing = evaluate(expr.args[0], env);
        const on = thing.type === 'thing' ? env.totals?.hangsOn(thing.thing) : undefined;
        return on?.thing === fact.thing && on.property === fact.property ? 'up' : 'constant';
      }
      return eachWay(expr, env)
        .flatMap((each) => expr.args.map((argument) => trend(argument, each, fact)))
        .reduce(joint, 'constant');
    case 'path': {
      const read = readsLast(expr, env);
      if (read?.thing === fact.thing && read.property === fact.property) return 'up';
      // An end of the range (`mass.longest`) does not move with the fact, but would when it is given one value.
      const inside = readsLast({ ...expr, names: expr.names.slice(0, -1) }, env);
      return inside?.thing === fact.thing && inside.property === fact.property ? undefined : 'constant';
    }
    default:
      return 'constant';
  }
}

function joint(one: Trend | undefined, other: Trend | undefined): Trend | undefined {
  if (one === 'constant') return other;
  return other === 'constant' || one === other ? one : undefined;
}

function against(one: Trend | undefined): Trend | undefined {
  if (one === 'up') return 'down';
  return one === 'down' ? 'up' : one;
}

/** Whether a value is nought or more, whatever the fact is. */
function notNegative(expr: Expr | undefined, env: Environment, fact: OpenFact): boolean {
  if (expr?.type === 'call' && expr.name.text === 'total') return true;
  if (expr?.type === 'call')
    return eachWay(expr, env).every((each) => expr.args.every((argument) => notNegative(argument, each, fact)));
  if (expr?.type === 'arithmetic' && expr.op !== '-')
    return notNegative(expr.left, env, fact) && notNegative(expr.right, env, fact);
  const value = evaluate(expr, withFact(env, fact, fact.possible));
  return value.type === 'quantity' && value.quantity.range.lo >= 0;
}

/** How a value bends with a fact: a straight line, below its chords (`convex`), above them (`concave`). */
type Bend = 'straight' | 'convex' | 'concave';

/** Whether a comparison that holds for two values of a fact holds for all between them: a convex value is at most a concave one. */
export function holdsBetween(expr: Expr, env: Environment, fact: OpenFact): boolean {
  if (expr.type !== 'compare') return false;
  const [left, right] = [bend(expr.left, env, fact), bend(expr.right, env, fact)];
  const is = (one: Bend | undefined, other: Bend) => one === 'straight' || one === other;
  if (expr.op === '<' || expr.op === '<=') return is(left, 'convex') && is(right, 'concave');
  return (expr.op === '>' || expr.op === '>=') && is(left, 'concave') && is(right, 'convex');
}

/** Undefined where it does not follow from how the value is built. */
function bend(expr: Expr | undefined, env: Environment, fact: OpenFact): Bend | undefined {
  if (trend(expr, env, fact) === 'constant') return 'straight';
  if (expr?.type === 'path') return trend(expr, env, fact) === undefined ? undefined : 'straight';
  if (expr?.type === 'arithmetic') {
    const [left, right] = [bend(expr.left, env, fact), bend(expr.right, env, fact)];
    if (expr.op === '+') return together(left, right);
    if (expr.op === '-') return together(left, mirrored(right));
    if (!notNegative(expr.left, env, fact) || !notNegative(expr.right, env, fact)) return undefined;
    if (trend(expr.right, env, fact) === 'constant') return left;
    return expr.op === '*' && trend(expr.left, env, fact) === 'constant' ? right : undefined;
  }
  if (expr?.type !== 'call') return undefined;
  // So much per body mass, added up over a path, is a straight line; over several paths it is the greatest and the least of these.
  if (expr.name.text === 'total') return 'straight';
  const outer: Bend = { min: 'concave' as const, max: 'convex' as const }[expr.name.text] ?? 'straight';
  return eachWay(expr, env)
    .flatMap((each) => expr.args.map((argument) => bend(argument, each, fact)))
    .reduce(together, outer);
}

function together(one: Bend | undefined, other: Bend | undefined): Bend | undefined {
  if (one === 'straight') return other;
  return other === 'straight' || one === other ? one : undefined;
}

function mirrored(one: Bend | undefined): Bend | undefined {
  if (one === 'convex') return 'concave';
  return one === 'concave' ? 'convex' : one;
}
