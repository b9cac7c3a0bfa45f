import type { Expr } from '@curette/grammar';
import { compare, compareSizes } from '@curette/shared';
import { fitsKind } from '../kinds/subkind.ts';
import type { FigureGap } from '../model.ts';
import { kindNamed } from '../names/resolve.ts';
import type { Thing } from '../protocol/things.ts';
import { type Answer, type Environment, type Evaluated, evaluate, gapOf, missingOf, sides } from './evaluate.ts';
import { findingAsked } from './findings.ts';

/** Judges a condition: true whatever happens, false whatever happens, or true in some circumstances only. */
export function judge(expr: Expr | undefined, env: Environment): Answer {
  if (!expr) return undecided('the condition is not finished');
  switch (expr.type) {
    case 'and': {
      const left = judge(expr.left, env);
      const right = judge(expr.right, env);
      if (left.answer === 'never' || right.answer === 'never') return { answer: 'never' };
      if (left.answer === 'undecided') return left;
      if (right.answer === 'undecided') return right;
      return { answer: left.answer === 'always' && right.answer === 'always' ? 'always' : 'sometimes' };
    }
    case 'or': {
      const left = judge(expr.left, env);
      const right = judge(expr.right, env);
      if (left.answer === 'always' || right.answer === 'always') return { answer: 'always' };
      if (left.answer === 'undecided') return left;
      if (right.answer === 'undecided') return right;
      return { answer: left.answer === 'never' && right.answer === 'never' ? 'never' : 'sometimes' };
    }
    case 'not': {
      const operand = judge(expr.operand, env);
      return opposite(operand);
    }
    case 'compare':
      return judgeComparison(expr, env);
    case 'is': {
      const answer = judgeIs(expr, env);
      return expr.negated ? opposite(answer) : answer;
    }
    case 'state': {
      const subject = evaluate(expr.subject, env);
      if (subject.type !== 'thing') return undecided(missingOf(subject, 'the thing whose state is asked for'));
      return askState(subject.thing, expr.state.text, expr.for, env);
    }
    case 'relation':
      return judgeRelation(expr, env);
    case 'yes or no':
      return { answer: expr.value ? 'always' : 'never' };
    case 'path': {
      const value = evaluate(expr, env);
      if (value.type === 'yes or no') return { answer: value.value ? 'always' : 'never' };
      return undecided(missingOf(value, 'a yes or a no'), gapOf(value));
    }
    case 'quantity':
    case 'size':
    case 'text':
    case 'arithmetic':
    case 'call':
      return undecided('a comparison');
    default:
      return expr satisfies never;
  }
}

/** What somebody has, takes or is allergic to is known of one patient: of the one a case is about. */
function judgeRelation(expr: Extract<Expr, { type: 'relation' }>, env: Environment): Answer {
  const subject = evaluate(expr.subject, env);
  const conditions = subject.type === 'thing' ? subject.thing.conditions : undefined;
  const relation = expr.value && `${expr.relation} ${expr.value.text}`;
  const holds = relation === undefined ? undefined : (conditions?.has(relation) ?? env.relation?.(relation));
  return holds === undefined ? undecided('what is known of a single patient') : { answer: holds ? 'always' : 'never' };
}

function judgeComparison(expr: Extract<Expr, { type: 'compare' }>, env: Environment): Answer {
  const [left, right] = sides(expr, env);
  if (left.type === 'unknown') return undecided(left.missing, left.gap);
  if (right.type === 'unknown') return undecided(right.missing, right.gap);
  if (left.type === 'size' && right.type === 'size' && expr.op !== 'within')
    return fromVerdict(compareSizes(left.sides, expr.op, right.sides));
  if (left.type === 'quantity' && right.type === 'quantity')
    return fromVerdict(compare(left.quantity, expr.op, right.quantity));
  if (expr.op === '=') {
    const same = sameValue(left, right);
    if (same !== undefined) return { answer: same ? 'always' : 'never' };
  }
  return undecided('two values that can be compared');
}

function sameValue(left: Evaluated, right: Evaluated): boolean | undefined {
  if (left.type === 'yes or no' && right.type === 'yes or no') return left.value === right.value;
  if (left.type === 'text' && right.type === 'text') return left.value === right.value;
  if (left.type === 'name' && right.type === 'name') return left.name === right.name;
  if (left.type === 'thing' && right.type === 'thing') return left.thing === right.thing;
  return undefined;
}

function judgeIs(expr: Extract<Expr, { type: 'is' }>, env: Environment): Answer {
  if (!expr.name) return undecided('the rest of the line');
  const subject = evaluate(expr.subject, env);
  const name = expr.name.text;
  const finding = findingAsked(expr, env);
  if (finding) return env.found?.(finding.name, name) ?? undecided('what is found');
  if (subject.type === 'name') {
    if (subject.name === name) return { answer: 'always' };
    const named = env.thing(subject.name);
    const kind = kindNamed(env.module, name);
    return { answer: named && kind && fitsKind(named.kind, kind) ? 'always' : 'never' };
  }
  if (subject.type !== 'thing')
    return undecided(missingOf(subject, `whether it is ${name.replaceAll('_', ' ')}`), gapOf(subject));
  const { thing } = subject;
  const kind = kindNamed(env.module, name);
  if (kind) return { answer: fitsKind(thing.kind, kind) ? 'always' : 'never' };
  if (thing.kind.tracks.some((track) => track.states.has(name))) return askState(thing, name, expr.for, env);
  return { answer: thing.entry?.name === name || thing.name === name ? 'always' : 'never' };
}

function askState(thing: Thing, state: string, forAtLeast: Expr | undefined, env: Environment): Answer {
  if (!env.state) return undecided('the state of things');
  if (!forAtLeast) return env.state(thing, state, undefined);
  const limit = evaluate(forAtLeast, env);
  if (limit.type !== 'quantity') return undecided(missingOf(limit, 'for how long'), gapOf(limit));
  return env.state(thing, state, limit.quantity);
}

function fromVerdict(verdict: 'always' | 'never' | 'sometimes' | 'incomparable'): Answer {
  return verdict === 'incomparable' ? undecided('two measures of the same sort') : { answer: verdict };
}

function opposite(answer: Answer): Answer {
  if (answer.answer === 'always') return { answer: 'never' };
  if (answer.answer === 'never') return { answer: 'always' };
  return answer;
}

function undecided(missing: string, gap?: FigureGap): Answer {
  return { answer: 'undecided', missing, gap };
}
