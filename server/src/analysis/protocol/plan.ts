import type { Expr, Name, Statement } from '@curette/grammar';
import { makeRange, type Quantity, type Range, withRange } from '@curette/shared';
import { outlastsState } from '../../problems/outlasts_state.ts';
import { type Place, type Problem, problemAt, type Report } from '../../problems/problem.ts';
import { ruleBroken } from '../../problems/rule_broken.ts';
import { undecidedNeed } from '../../problems/undecided.ts';
import { unmetNeed } from '../../problems/unmet_need.ts';
import { outlasted } from '../kinds/age.ts';
import { secondsOf } from '../kinds/seconds.ts';
import {
  type Action,
  type AgeLimit,
  type Ground,
  placeOf,
  type Rule,
  type SetNote,
  type Track,
  type UseUp,
} from '../model.ts';
import { inThingsMeasure } from '../rules/amount.ts';
import { type Environment, type Evaluated, evaluate, type Unsaid } from '../rules/evaluate.ts';
import { type RuleEvent, waysOf } from '../rules/events.ts';
import { firstName } from '../rules/first-name.ts';
import { judge } from '../rules/judge.ts';
import { wordsOf } from '../rules/pattern.ts';
import { setsUsed } from '../rules/sets-used.ts';
import { judgeSolved } from '../rules/solve.ts';
import { hangsOnState } from './hangs-on-state.ts';
import type { Mark } from './monitors.ts';
import type { NameScope } from './name-scope.ts';
import { thingNamedBy } from './name-scope.ts';
import { ruleEnvironment } from './rule-environment.ts';
import type { Filling, ResolvedStep } from './step.ts';
import type { Thing } from './things.ts';
import { trackIndex, trackWith } from './track.ts';
import { undecidedProblem } from './undecided.ts';

/** A state that a thing must be in when the step begins, and for how long it must have been. */
export interface StateNeed {
  readonly thing: Thing;
  readonly index: number;
  readonly track: Track;
  readonly state: string;
  /** seconds since it came into the state; undefined when age does not matter */
  readonly age: Range | undefined;
  readonly ageText: Quantity | undefined;
  /** the set of figures that it comes from */
  readonly ageSet: SetNote | undefined;
  /** the state's own age limit in seconds, and what comes after */
  readonly lasts:
    | {
        readonly seconds: number;
        readonly limit: Quantity;
        readonly age: AgeLimit;
        readonly set: SetNote | undefined;
      }
    | undefined;
  readonly ground: Ground;
}

export interface StateSet {
  readonly thing: Thing;
  readonly index: number;
  readonly track: Track;
  readonly state: string;
}

export interface Consumption {
  readonly thing: Thing;
  /** in the thing's own measure; undefined: all there is, or not known */
  readonly amount: Quantity | undefined;
  /** as written, least to most; undefined: all there is, or not known */
  readonly written: Quantity | undefined;
  /** what would have to be stated to tell how much */
  readonly unsaid: Unsaid | undefined;
}

/** A condition that hangs on states, judged where the step stands. */
export interface DynamicCheck {
  readonly expr: Expr;
  readonly environment: Environment;
  readonly rule: Rule | undefined;
  readonly ground: Ground | undefined;
  readonly where: Expr | undefined;
  /** where it is told, if not at the event */
  readonly place: Place | undefined;
}

/** What a step asks of the states before it and does to them, worked out once. */
export interface StepPlan {
  readonly needs: readonly StateNeed[];
  readonly checks: readonly DynamicCheck[];
  readonly sets: readonly StateSet[];
  readonly uses: readonly Consumption[];
  readonly marks: readonly Mark[];
}

export const emptyPlan: StepPlan = { needs: [], checks: [], sets: [], uses: [], marks: [] };

export function planStep(
  scope: NameScope,
  statement: Statement,
  action: Action,
  step: ResolvedStep,
  rules: readonly Rule[],
  monitorCount: number,
  marks: readonly Mark[],
): { readonly plan: StepPlan; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const report: Report = (problem) => problems.push(problem);
  const needs: StateNeed[] = [];
  const checks: DynamicCheck[] = [];
  const sets: StateSet[] = [];
  const uses: Consumption[] = [];
  const at = (name: string | undefined) => placeOf(scope.module.id, statement, spanOf(step, name) ?? statement.head);
  const environment = stepEnvironment(scope, action.file, step);
  const untold = (place: Place, what: string, rule: string | undefined, unsaid: Unsaid) => {
    const problem = undecidedProblem(scope.module, place, { what, rule }, unsaid);
    if (problem) report(problem);
  };

  for (const need of action.needs) {
    if (need.condition.type === 'state') {
      const { subject, state } = need.condition;
      const root = subject.names[0]?.text;
      const things = thingsAt(
        scope,
        step,
        subject.names.map((name) => name.text),
      );
      if (things.unknown !== undefined && root !== undefined && step.fillings.has(root))
        report(
          problemAt(undecidedNeed, at(root), {
            what: `whether ${things.of} is ${state.text.replaceAll('_', ' ')}`,
            missing: things.unknown,
            rule: undefined,
          }),
        );
      for (const thing of things.things) {
        const track = trackWith(thing, state.text);
        if (!track) continue;
        const limit = need.condition.for && evaluate(need.condition.for, environment);
        if (limit?.type === 'unknown')
          untold(at(root), `how long ${thing.label} must be ${state.text.replaceAll('_', ' ')}`, undefined, limit);
        const asked = limit?.type === 'quantity' ? limit.quantity : undefined;
        const age = asked && ageRange(asked, need.condition.for);
        const lasts = ageLimit(scope, thing, state.text);
        const outlasts = lasts !== undefined && age !== undefined && age.lo > lasts.seconds;
        // Between two written numbers it is told where the action is declared.
        const declared = need.condition.for?.type === 'quantity' && lasts?.age.atMost.type === 'quantity';
        if (outlasts && asked && !declared)
          report(
            problemAt(outlastsState, at(root), {
              ...outlasted(scope.module, lasts.age, lasts.limit),
              sets: [...setsUsed(need.condition.for, environment), ...(lasts.set ? [lasts.set] : [])],
              what: 'need',
              thing: `"${thing.label}"`,
              state: state.text,
              asked,
              mends: [],
            }),
          );
        const unsaid = limit?.type === 'unknown' ? undefined : limitUnsaid(scope, thing, state.text);
        if (unsaid !== undefined)
          untold(at(root), `how long ${thing.label} stays ${state.text.replaceAll('_', ' ')}`, undefined, unsaid);
        needs.push({
          thing,
          index: trackIndex(thing, track, monitorCount),
          track,
          state: state.text,
          // What can never be is told once, and not asked of the order of work as well.
          age: outlasts ? undefined : age,
          ageText: outlasts ? undefined : asked,
          ageSet: outlasts ? undefined : setsUsed(need.condition.for, environment)[0],
          lasts,
          ground: need.ground,
        });
      }
      continue;
    }
    const answer = judgeSolved(need.condition, environment);
    if (hangsOnState(need.condition, environment))
      checks.push({
        expr: need.condition,
        environment,
        rule: undefined,
        ground: need.ground,
        where: undefined,
        place: undefined,
      });
    else if (answer.answer === 'never' || answer.answer === 'sometimes')
      report(
        problemAt(unmetNeed, at(firstName(need.condition)), {
          verb: action.verb,
          condition: wordsOf(need.condition, environment),
          always: answer.answer === 'never',
          when: undefined,
          solved: answer.solved,
          because: need.ground.because,
          source: scope.module.citation(need.ground.source),
          declared: need.ground.place,
        }),
      );
    else if (answer.answer === 'undecided' && allFilled(need.condition, step))
      untold(at(firstName(need.condition)), wordsOf(need.condition, environment), undefined, answer);
  }

  for (const effect of action.makes)
    for (const thing of thingsAt(scope, step, effect.path).things) {
      const track = trackWith(thing, effect.state);
      if (track) sets.push({ thing, index: trackIndex(thing, track, monitorCount), track, state: effect.state });
    }

  for (const use of action.usesUp)
    for (const thing of thingsAt(scope, step, use.path).things) {
      const amount = use.amount && evaluate(use.amount, environment);
      const quantity = amount?.type === 'quantity' ? amount.quantity : undefined;
      uses.push({
        thing,
        amount: quantity && inThingsMeasure(thing, quantity),
        written: quantity && bounded(quantity, use.bound),
        unsaid: amount && !quantity ? amountUnsaid(thing, use, amount, action, step) : undefined,
      });
    }

  const judged = judgeRules(scope, statement, { type: 'step', step }, rules, marks);
  return {
    plan: { needs, checks: [...checks, ...judged.checks], sets, uses, marks },
    problems: [...problems, ...judged.problems],
  };
}

/** What rules ask of an event that changes no state: a pause, a check, a record, a finding. */
export function planEvent(
  scope: NameScope,
  statement: Statement,
  event: RuleEvent,
  rules: readonly Rule[],
  marks: readonly Mark[],
): { readonly plan: StepPlan; readonly problems: readonly Problem[] } {
  const { checks, problems } = judgeRules(scope, statement, event, rules, marks);
  return { plan: { ...emptyPlan, checks, marks }, problems };
}

function judgeRules(
  scope: NameScope,
  statement: Statement,
  event: RuleEvent,
  rules: readonly Rule[],
  marks: readonly Mark[],
): { readonly checks: readonly DynamicCheck[]; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const checks: DynamicCheck[] = [];
  const report: Report = (problem) => problems.push(problem);
  const untold = (place: Place, what: string, rule: string | undefined, unsaid: Unsaid) => {
    const problem = undecidedProblem(scope.module, place, { what, rule }, unsaid);
    if (problem) report(problem);
  };
  for (const rule of rules) judgeRule(scope, statement, event, rule, checks, report, untold);
  for (const { untold: unsaid, monitor } of marks)
    if (unsaid)
      untold(
        placeOf(scope.module.id, statement, statement.head),
        'the time that is asked for',
        monitor.rule?.name,
        unsaid,
      );
  return { checks, problems };
}

function bounded(quantity: Quantity, bound: UseUp['bound']): Quantity {
  const { lo, hi, openLo, openHi } = quantity.range;
  if (bound === 'at least') return withRange(quantity, makeRange(lo, Number.POSITIVE_INFINITY, openLo === true, false));
  return bound === 'at most' ? withRange(quantity, makeRange(0, hi, false, openHi === true)) : quantity;
}

/** What would tell how much is used up; a slot that nothing stands in is told at the step. */
function amountUnsaid(thing: Thing, use: UseUp, amount: Evaluated, action: Action, step: ResolvedStep): Unsaid {
  if (amount.type === 'unknown') return amount;
  const name = firstName(use.amount) ?? '';
  const slot = action.slots.find((other) => other.name === name);
  const told = slot !== undefined && !slot.optional && !step.fillings.has(name);
  return {
    missing: `how much of ${thing.label} is used up`,
    gap: told ? { property: name, group: '', why: 'told', set: undefined } : undefined,
  };
}

/** Names in an action's own lines: its slots, then things reachable from them. */
function stepEnvironment(scope: NameScope, file: string, step: ResolvedStep): Environment {
  return {
    module: scope.module.module(file) ?? scope.module,
    filling: (name) => step.fillings.get(name),
    thing: (name) => scope.things.byName.get(name) ?? scope.things.unlisted(name),
    state: undefined,
  };
}

function judgeRule(
  scope: NameScope,
  statement: Statement,
  event: RuleEvent,
  rule: Rule,
  checks: DynamicCheck[],
  report: Report,
  untold: (place: Place, what: string, rule: string | undefined, unsaid: Unsaid) => void,
): void {
  for (const form of rule.forms) {
    if (form.type !== 'whenever') continue;
    for (const bound of waysOf(form.pattern, event)) {
      const environment = ruleEnvironment(scope.module, scope.things, rule.file, bound);
      const where = event.type === 'finding' ? whereFound(event, form.where) : form.where;
      const dynamic = event.type === 'finding' || (where !== undefined && hangsOnState(where, environment));
      const spoken = where && !dynamic ? judge(where, environment).answer : 'always';
      if (spoken === 'never') continue;
      for (const expr of form.expect) {
        const span = bound.get(firstName(expr) ?? '');
        const place = placeOf(scope.module.id, statement, span ? spanOfFilling(span) : statement.head);
        if (dynamic || hangsOnState(expr, environment)) {
          checks.push({ expr, environment, rule, ground: undefined, where, place });
          continue;
        }
        const answer = judgeSolved(expr, environment);
        if (answer.answer === 'always') continue;
        if (answer.answer === 'undecided') untold(place, wordsOf(expr, environment), rule.name, answer);
        else
          report(
            problemAt(ruleBroken, place, {
              rule: rule.name,
              label: rule.label,
              severity: rule.severity,
              expected: wordsOf(expr, environment),
              always: answer.answer === 'never',
              when: spoken === 'always' ? undefined : wordsOf(where, environment),
              solved: answer.solved,
              why: rule.why,
              source: scope.module.citation(rule.source) ?? scope.module.module(rule.file)?.citation(rule.source),
              declared: placeOf(rule.file, rule.statement, rule.statement.head),
              bound: [...bound],
              expr,
            }),
          );
      }
    }
  }
}

/** Of several values that lead to one option, a rule about one of them speaks of some of the paths. */
function whereFound(event: Extract<RuleEvent, { type: 'finding' }>, where: Expr | undefined): Expr | undefined {
  if (event.among.size <= 1) return where;
  const span = { start: 0, end: 0 };
  const name = (text: string): Name => ({ ...span, text });
  const subject: Expr = { type: 'path', ...span, names: [name(event.finding.name)] };
  const found: Expr = { type: 'is', ...span, subject, negated: false, name: name(event.value), for: undefined };
  return where ? { type: 'and', ...span, left: found, right: where } : found;
}

/** The things a path from a slot leads to; `unknown` names what is not stated on the way. */
function thingsAt(
  scope: NameScope,
  step: ResolvedStep,
  path: readonly string[],
): { readonly things: readonly Thing[]; readonly unknown: string | undefined; readonly of: string } {
  const [root, ...rest] = path;
  const filling = root === undefined ? undefined : step.fillings.get(root);
  if (filling?.type !== 'things') return { things: [], unknown: undefined, of: root ?? '' };
  let things = filling.things.map(({ thing }) => thing);
  let of = things.map((thing) => thing.label).join(', ');
  for (const property of rest) {
    const next: Thing[] = [];
    const words = property.replaceAll('_', ' ');
    for (const thing of things) {
      const named = thingNamedBy(scope.things, thing, property);
      if (named) next.push(named);
      else return { things: [], unknown: `the ${words} of ${thing.label}`, of: `the ${words} of ${thing.label}` };
    }
    things = next;
    of = things.map((thing) => thing.label).join(', ');
  }
  return { things, unknown: undefined, of };
}

/** How long a state of a thing lasts, from its kind and the thing's own values. */
export function ageLimit(scope: NameScope, thing: Thing, state: string): StateNeed['lasts'] {
  const age = thing.kind.ages.find((limit) => limit.state === state);
  const value = age && limitOf(scope, thing, age);
  const time = value?.type === 'quantity' ? secondsOf(value.quantity) : undefined;
  if (!age || value?.type !== 'quantity' || !time || !Number.isFinite(time.hi)) return undefined;
  const property = firstName(age.atMost);
  const set = property === undefined ? undefined : thing.values.get(property)?.set;
  return { seconds: time.hi, limit: value.quantity, age, set };
}

/** What would have to be stated to tell how long a state lasts; undefined when it can be told, or nothing bounds it. */
export function limitUnsaid(scope: NameScope, thing: Thing, state: string): Unsaid | undefined {
  const age = thing.kind.ages.find((limit) => limit.state === state);
  const value = age && limitOf(scope, thing, age);
  if (value?.type !== 'unknown') return undefined;
  const property = firstName(age?.atMost);
  return property !== undefined && thing.kind.properties.has(property) && !thing.values.has(property)
    ? { missing: `the ${property.replaceAll('_', ' ')} of ${thing.label}`, gap: thing.gaps.get(property) }
    : value;
}

function limitOf(scope: NameScope, thing: Thing, age: AgeLimit): Evaluated {
  return evaluate(age.atMost, {
    module: scope.module.module(age.ground.place.file) ?? scope.module,
    filling: (name) => {
      const stated = thing.values.get(name)?.values[0];
      return stated?.type === 'quantity'
        ? { type: 'quantity', quantity: stated.quantity, span: { start: 0, end: 0 } }
        : undefined;
    },
    thing: () => undefined,
    state: undefined,
  });
}

/**
 * Seconds. `for 10 min` asks for at least that; `for 10..60 min` and `for exactly 10 min` for no less and no more. Undefined for what is
 * no time.
 */
function ageRange(quantity: Quantity, written: Expr | undefined): Range | undefined {
  const time = secondsOf(quantity);
  const exact = written?.type === 'quantity' && written.form === 'exactly';
  return time && { lo: time.lo, hi: time.lo === time.hi && !exact ? Number.POSITIVE_INFINITY : time.hi };
}

export function spanOfFilling(filling: Filling): { readonly start: number; readonly end: number } {
  if (filling.type !== 'things') return filling.span;
  const [first] = filling.things;
  return first?.span ?? { start: 0, end: 0 };
}

function spanOf(step: ResolvedStep, name: string | undefined) {
  const filling = name === undefined ? undefined : step.fillings.get(name);
  return filling && spanOfFilling(filling);
}

/** Whether every slot a condition speaks of has something in it; if not, that is said already. */
function allFilled(expr: Expr, step: ResolvedStep): boolean {
  const name = firstName(expr);
  return name === undefined || step.fillings.has(name);
}
