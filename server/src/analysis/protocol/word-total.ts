import type { Expr } from '@curette/grammar';
import { formatQuantity, type Quantity } from '@curette/shared';
import { type Place, type Problem, problemAt, type Related } from '../../problems/problem.ts';
import { totalBroken } from '../../problems/total_broken.ts';
import { placeOf } from '../model.ts';
import type { Circumstance } from '../rules/circumstances.ts';
import { type Environment, type Evaluated, sides, withEach } from '../rules/evaluate.ts';
import { judge } from '../rules/judge.ts';
import { withFact } from '../rules/open-fact.ts';
import { wordsOf } from '../rules/pattern.ts';
import { setsUsed } from '../rules/sets-used.ts';
import { type Solved, worstValue } from '../rules/solve.ts';
import { type Asked, answerTo, conditionOf, environmentOf, massOf, type TotalForm } from './asked-total.ts';
import { type Broken, type Found, openIn } from './broken-total.ts';
import { forEachFlow, type StepFlow } from './flow.ts';
import { placeAtThing } from './flow-words.ts';
import { givingOf } from './giving.ts';
import { patientIn } from './stand-in.ts';
import type { Thing } from './things.ts';
import { shareOf } from './totals.ts';

/** A total that is over its limit, or under it: at the step that makes it so, with every step that gives part of it. */
export function wordTotal(
  asked: Asked,
  about: readonly Thing[],
  circumstance: Circumstance,
  { answer, found }: Broken,
): Problem {
  const { module, rule, form, expr, visits } = asked;
  const seen = new Map<Thing, Quantity>();
  const env = environmentOf(asked, { about, circumstance, counted: { found }, seen });
  const solved = answer.answer === 'undecided' ? undefined : answer.solved;
  const possible = solved && withFact(env, solved.fact, solved.fact.possible);
  const [left, right] = expr.type === 'compare' ? sides(expr, possible ?? env) : [undefined, undefined];
  if (expr.type !== 'compare') judge(expr, env);
  const limitUnit = right?.type === 'quantity' ? right.quantity.unit : undefined;
  const inLimits = (quantity: Quantity): Quantity =>
    limitUnit?.dimension === quantity.dimension ? { ...quantity, unit: limitUnit } : quantity;
  const amounts = [...seen].filter(([, { range }]) => range.hi > 0);
  const steps = stepsOf(visits, about);
  const culprit = passing(asked, about, circumstance, found, solved, steps);
  const open = openIn(visits, about);
  const spoken = [...found].map(([key, value]) => open.get(key)?.say(new Set([value])) ?? key);
  return problemAt(
    totalBroken,
    culprit ? placeIn(culprit, about) : placeOf(module.id, rule.statement, rule.statement.head),
    {
      rule: rule.name,
      label: rule.label,
      severity: rule.severity,
      amounts: amounts.map(([thing, amount]) => ({ thing: thing.label, amount: inLimits(amount) })),
      comesTo:
        expr.type === 'compare' && !isTotal(expr.left) && left?.type === 'quantity'
          ? inLimits(left.quantity)
          : undefined,
      limit: limitWords(expr, right, solved !== undefined && !solved.fact.stated, env),
      scope: form.scope,
      when: [circumstance.words, ...spoken].filter((words) => words !== '').join(' and '),
      always: answer.answer === 'never',
      solved,
      sets: setsOf(expr, env, form, about),
      why: rule.why,
      source: module.citation(rule.source) ?? module.module(rule.file)?.citation(rule.source),
      steps: steps.flatMap((step) => relatedTo(asked, step, amounts, env, inLimits)),
      declared: placeOf(rule.file, rule.statement, rule.statement.head),
    },
  );
}

function isTotal(expr: Expr): boolean {
  return expr.type === 'call' && expr.name.text === 'total';
}

const ASKED = {
  '<': 'under',
  '<=': 'at most',
  '>': 'over',
  '>=': 'at least',
  '=': 'exactly',
  within: 'a value within',
} as const;

function limitWords(expr: Expr, right: Evaluated | undefined, unknown: boolean, env: Environment): string {
  if (expr.type !== 'compare') return `what is not so: ${wordsOf(expr, env)}`;
  const value = right?.type === 'quantity' && !unknown ? formatQuantity(right.quantity) : wordsOf(expr.right, env);
  return `${ASKED[expr.op]} ${value}`;
}

function setsOf(expr: Expr, env: Environment, form: TotalForm, about: readonly Thing[]) {
  const used = (form.together ? about.map((thing) => withEach(env, form.name, thing)) : [env]).flatMap((each) =>
    setsUsed(expr, each),
  );
  return used.filter((set, index) => used.findIndex((other) => other.name === set.name) === index);
}

/** The first step with which it is no longer kept; the last one, when fewer would be no better. */
function passing(
  asked: Asked,
  about: readonly Thing[],
  circumstance: Circumstance,
  found: Found,
  solved: Solved | undefined,
  steps: readonly StepFlow[],
): StepFlow | undefined {
  const kept = (count: number) => {
    const put = { about, circumstance, counted: { found, steps: new Set(steps.slice(0, count)) } };
    if (!solved) return answerTo(asked, put).answer === 'always';
    return (
      judge(conditionOf(asked), withFact(environmentOf(asked, put), solved.fact, worstValue(solved))).answer ===
      'always'
    );
  };
  if (!kept(0)) return steps.at(-1);
  let [good, bad] = [0, steps.length];
  while (bad - good > 1) {
    const middle = (good + bad) >> 1;
    if (kept(middle)) good = middle;
    else bad = middle;
  }
  return steps[bad - 1];
}

/** The steps that use up some of the things, in the order they stand. */
export function stepsOf(visits: Asked['visits'], about: readonly Thing[]): readonly StepFlow[] {
  const steps: StepFlow[] = [];
  for (const chunks of visits)
    for (const chunk of chunks) {
      const giving = givingOf(chunk);
      if (!about.some((thing) => giving.steps.has(thing) || giving.named.has(thing))) continue;
      forEachFlow(chunk.items, (flow) => {
        if (flow.type === 'step' && stepThing(flow, about)) steps.push(flow);
      });
    }
  return steps;
}

export function stepThing(step: StepFlow, about: readonly Thing[]): Thing | undefined {
  const used = step.plan.uses.find((use) => about.includes(use.thing))?.thing;
  return used ?? step.step.named.find((thing) => about.includes(thing));
}

function placeIn(step: StepFlow, about: readonly Thing[]): Place {
  const thing = stepThing(step, about);
  return thing ? placeAtThing(step, thing) : placeOf(step.file, step.statement, step.statement.head);
}

function relatedTo(
  { things }: Asked,
  step: StepFlow,
  amounts: readonly (readonly [Thing, Quantity])[],
  env: Environment,
  inLimits: (quantity: Quantity) => Quantity,
): Related[] {
  const patient = patientIn(things);
  return step.plan.uses.flatMap((use) => {
    const total = amounts.find(([thing]) => thing === use.thing)?.[1] ?? amounts[0]?.[1];
    if (!total || !use.written) return [];
    const share = shareOf(step, use.thing, total.dimension, (around) => massOf(patient, around), env);
    const written = formatQuantity(use.written);
    const also = share && share.dimension !== use.written.dimension ? `, ${formatQuantity(inLimits(share))}` : '';
    return [{ place: placeAtThing(step, use.thing), message: `${use.thing.label}: ${written}${also}` }];
  });
}
