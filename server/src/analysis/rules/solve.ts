import type { Expr, PathNode } from '@curette/grammar';
import {
  dimensionNamed,
  fromBase,
  isPoint,
  makeRange,
  type Quantity,
  type Range,
  rangeBetween,
  toBase,
  unitsOf,
  withRange,
} from '@curette/shared';
import type { Thing } from '../protocol/things.ts';
import { type Answer, type Environment, evaluate, judge, takesTogether, withEach } from './evaluate.ts';

/** A given fact of the protocol that a condition hangs on, and what it may be. */
export interface OpenFact {
  readonly thing: Thing;
  readonly property: string;
  /** false: nothing is stated of it */
  readonly stated: boolean;
  /** what is stated or, where nothing is, what its kind takes for no slip */
  readonly possible: Quantity;
}

/** For which values of a given fact a condition does not hold. */
export interface Solved {
  readonly fact: OpenFact;
  /** where it can fail to hold: for certain, or in some circumstances that do not hang on this fact */
  readonly canBreak: Quantity;
  /** where it fails for certain */
  readonly breaks: Quantity | undefined;
}

/** An answer; where it is so in some circumstances, these may be told by one given fact. */
export type SolvedAnswer = Answer & { readonly solved?: Solved | undefined };

/**
 * Judges a condition and, where its answer hangs on one given fact that is a range or not stated, says for which values it does not
 * hold. So an unknown body mass leaves no question open: it is told from which mass on a ceiling is kept.
 *
 * The condition is solved by bisection, where how it is built proves that this finds all: it is monotone in the fact (`trend`), so that
 * its answer changes at one value at most, or it is a comparison of a convex with a concave value (`holdsBetween`), so that it holds
 * between any two values for which it holds; the answers at both ends then say where to look.
 */
export function judgeSolved(expr: Expr | undefined, env: Environment): SolvedAnswer {
  const answer = judge(expr, env);
  if (!expr || answer.answer === 'always' || answer.answer === 'never') return answer;
  const facts = openFacts(expr, env);
  const [fact] = facts;
  if (!fact || facts.length > 1) return answer;
  const moves = trend(expr, env, fact);
  const monotone = moves === 'up' || moves === 'down';
  if (!monotone && !holdsBetween(expr, env, fact)) return answer;
  const at = (value: number): Answer['answer'] => {
    const point = withRange(fact.possible, makeRange(value, value, false, false));
    return judge(expr, withFact(env, fact, point)).answer;
  };
  const span = searched(fact.possible);
  if ([at(span.lo), at(span.hi)].includes('undecided')) return answer;
  const canBreak = whereNot((value) => at(value) === 'always', span, monotone, fact.possible);
  if (canBreak === 'not told') return answer;
  if (!canBreak) return { answer: 'always' };
  const breaks = whereNever(at, canBreak, span, monotone, fact);
  if (breaks && covers(breaks.range, fact.possible.range)) return { answer: 'never' };
  // Whatever the fact is, it can fail: what it hangs on is something else.
  if (!breaks && covers(canBreak.range, fact.possible.range)) return { answer: 'sometimes' };
  return { answer: 'sometimes', solved: { fact, canBreak, breaks } };
}

/** The part of where it can fail in which it fails for certain: mostly all of it. */
function whereNever(
  at: (value: number) => Answer['answer'],
  canBreak: Quantity,
  span: { readonly lo: number; readonly hi: number },
  monotone: boolean,
  { possible }: OpenFact,
): Quantity | undefined {
  const { lo, hi } = canBreak.range;
  const [bad, edge] = lo > possible.range.lo ? [span.hi, lo] : [span.lo, hi];
  const nearEdge = edge + (bad - edge) * 1e-7;
  if (at(bad) === 'never' && at(nearEdge) === 'never') return canBreak;
  const never = whereNot((value) => at(value) !== 'never', span, monotone, possible);
  return never === 'not told' ? undefined : never;
}

/** A value of the fact for which a condition fails most surely: at the end of what is possible. */
export function worstValue({ fact, canBreak }: Solved): Quantity {
  const { lo, hi } = searched(fact.possible);
  const value = canBreak.range.lo > fact.possible.range.lo ? hi : lo;
  return withRange(fact.possible, makeRange(value, value, false, false));
}

/** The environment in which a given fact has one value. */
export function withFact(env: Environment, { thing, property }: OpenFact, value: Quantity): Environment {
  return {
    ...env,
    fact: (other, name) => (other === thing && name === property ? value : env.fact?.(other, name)),
  };
}

/** Every given fact that an expression reads and that is a range or not stated, once each. */
function openFacts(expr: Expr, env: Environment): readonly OpenFact[] {
  const facts: OpenFact[] = [];
  const add = (fact: OpenFact | undefined): void => {
    if (fact && !facts.some((other) => sameFact(other, fact))) facts.push(fact);
  };
  const visit = (part: Expr | undefined, around: Environment): void => {
    switch (part?.type) {
      case 'and':
      case 'or':
      case 'compare':
      case 'arithmetic':
        visit(part.left, around);
        visit(part.right, around);
        break;
      case 'not':
        visit(part.operand, around);
        break;
      case 'path':
        add(factAt(part, around));
        break;
      case 'call':
        if (part.name.text === 'total') {
          const thing = evaluate(part.args[0], around);
          const on = thing.type === 'thing' ? around.totals?.hangsOn(thing.thing) : undefined;
          add(on && openFact(on.thing, on.property));
        } else for (const each of eachWay(part, around)) for (const argument of part.args) visit(argument, each);
        break;
      default:
        break;
    }
  };
  visit(expr, env);
  return facts;
}

/** The environments in which a call's values are asked for: one for each of several things that it takes together. */
function eachWay(call: Extract<Expr, { type: 'call' }>, env: Environment): readonly Environment[] {
  const together = takesTogether(call) ? env.totals?.together : undefined;
  return together ? together.things.map((thing) => withEach(env, together.name, thing)) : [env];
}

/** The open fact that a path reads as a whole. */
function factAt(path: PathNode, env: Environment): OpenFact | undefined {
  const read = readsLast(path, env);
  return read && openFact(read.thing, read.property);
}

/** The thing that a path leads to and the property of it that it ends with. */
function readsLast(path: PathNode, env: Environment): { readonly thing: Thing; readonly property: string } | undefined {
  const last = path.names.at(-1);
  if (!last || path.names.length < 2) return undefined;
  const owner = evaluate({ ...path, names: path.names.slice(0, -1) }, env);
  if (owner.type === 'thing') return { thing: owner.thing, property: last.text };
  return undefined;
}

function openFact(thing: Thing, property: string): OpenFact | undefined {
  const declared = thing.kind.properties.get(property);
  if (declared?.type?.form !== 'quantity' || declared.type.range || !isGiven(thing)) return undefined;
  const value = thing.values.get(property)?.values[0];
  if (value) {
    const open = value.type === 'quantity' && !isPoint(value.quantity.range);
    return open ? { thing, property, stated: true, possible: value.quantity } : undefined;
  }
  const dimension = dimensionNamed(declared.type.dimension);
  const unit = declared.within?.unit ?? (dimension && unitsOf(dimension)[0]);
  if (!unit || thing.gaps.has(property)) return undefined;
  const possible = declared.within ?? {
    dimension: unit.dimension,
    range: makeRange(0, Number.POSITIVE_INFINITY, true, false),
    unit,
  };
  return { thing, property, stated: false, possible };
}

/** Given by the protocol, or spoken of by a rule (`patient`) and left open by the protocol. */
function isGiven(thing: Thing): boolean {
  return thing.group === 'given' || (thing.group === 'place' && thing.entry === undefined);
}

function sameFact(one: OpenFact, other: OpenFact): boolean {
  return one.thing === other.thing && one.property === other.property;
}

// ── how a condition moves with a fact ───────────────────────────────────────────────────────────────────────────────

/** With a greater value: a value grows, a condition comes to hold (`up`); the opposite (`down`); nothing changes. */
type Trend = 'up' | 'down' | 'constant';

/**
 * How a value or a condition moves with a fact, where that follows from how it is built: sums, least and greatest move as their parts
 * do, products and quotients of what is not negative as their factors. Undefined where parts pull either way.
 */
function trend(expr: Expr | undefined, env: Environment, fact: OpenFact): Trend | undefined {
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
function holdsBetween(expr: Expr, env: Environment, fact: OpenFact): boolean {
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

// ── where its answer changes ────────────────────────────────────────────────────────────────────────────────────────

/** A value so small, or so large, in its own unit, that nothing at the chair lies beyond it. */
const SMALLEST = 1e-9;
const LARGEST = 1e9;

/** The part of a range in which the answer is looked for: both ends are values. */
function searched({ range, unit }: Quantity): { readonly lo: number; readonly hi: number } {
  const bounded = Number.isFinite(range.lo) && range.lo !== 0;
  return {
    lo: bounded ? range.lo : unit.factor * SMALLEST,
    hi: Number.isFinite(range.hi) ? range.hi : unit.factor * LARGEST,
  };
}

/** The values for which a condition does not hold; undefined when there are none. */
function whereNot(
  holds: (value: number) => boolean,
  { lo, hi }: { readonly lo: number; readonly hi: number },
  monotone: boolean,
  possible: Quantity,
): Quantity | 'not told' | undefined {
  const [below, above] = [holds(lo), holds(hi)];
  if (below && above) return undefined;
  if (!below && !above) return monotone ? possible : 'not told';
  const found = above ? bisect(holds, lo, hi) : bisect(holds, hi, lo);
  const limit = rounded(possible, found);
  // A limit that no number of a few digits writes is not told apart from the values next to it.
  const open = limit === found || holds(limit);
  const { range } = possible;
  const broken = above
    ? rangeBetween(range.lo, limit, range.openLo === true, open)
    : rangeBetween(limit, range.hi, open, range.openHi === true);
  return broken && withRange(possible, broken);
}

/** The value between two at which a condition that holds at the second comes to hold, to twelve digits. */
function bisect(holds: (value: number) => boolean, bad: number, good: number): number {
  let [without, having] = [bad, good];
  for (let round = 0; round < 200 && Math.abs(having - without) > 1e-12 * Math.abs(having); round++) {
    // Over several powers of ten, the middle is that of their logarithms.
    const apart = without > 0 && having > 0 && (having > 4 * without || without > 4 * having);
    const middle = apart ? Math.sqrt(without * having) : (without + having) / 2;
    if (holds(middle)) having = middle;
    else without = middle;
  }
  return having;
}

/** The number of a few digits that a limit is, as far as ends of ranges are told apart (one part in 10^9). */
function rounded({ unit }: Quantity, value: number): number {
  const written = toBase(Number(fromBase(value, unit).toPrecision(6)), unit);
  return Math.abs(written - value) <= 4e-9 * Math.abs(value) ? written : value;
}

function covers(outer: Range, inner: Range): boolean {
  return outer.lo <= inner.lo && outer.hi >= inner.hi;
}
