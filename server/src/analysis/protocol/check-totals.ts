import type { Report } from '../../problems/problem.ts';
import { fitsKind } from '../kinds/subkind.ts';
import type { Rule } from '../model.ts';
import type { Module } from '../names/module.ts';
import { circumstancesOf } from '../rules/circumstances.ts';
import type { Environment } from '../rules/evaluate.ts';
import { wordsOf } from '../rules/pattern.ts';
import { isSameExpression } from '../rules/same-expression.ts';
import type { SolvedAnswer } from '../rules/solve.ts';
import { type Asked, answerTo, environmentOf, spokenOf, type TotalForm } from './asked-total.ts';
import { NOTHING_FOUND, worst } from './broken-total.ts';
import type { Chunk } from './chunks.ts';
import { placeAtThing } from './flow-words.ts';
import { givingOf } from './giving.ts';
import type { Filling } from './step.ts';
import type { Thing, Things } from './things.ts';
import { undecidedProblem } from './undecided.ts';
import { stepsOf, stepThing, wordTotal } from './word-total.ts';

/** Rules about what adds up over a visit or the protocol: of each thing by itself, and of all of a kind together. */
export function checkTotals(
  module: Module,
  things: Things,
  rules: readonly Rule[],
  visits: readonly (readonly Chunk[])[],
  report: Report,
): void {
  const forms = rules.flatMap((rule) => rule.forms.flatMap((form) => (form.type === 'total' ? [{ rule, form }] : [])));
  const told = new Map<string, Asked[]>();
  // Of each by itself first: a limit told of the only one there is, is not told again as that of all together.
  for (const { rule, form } of forms.toSorted((a, b) => Number(a.form.together) - Number(b.form.together)))
    for (const scope of form.scope === 'visit' ? visits.map((chunks) => [chunks]) : [visits])
      for (const asked of askedIn(module, things, rule, form, scope))
        judgeTotal(asked, (problem) => {
          const key = `${problem.code}|${problem.place.file}|${problem.place.statement}|${problem.place.span.start}`;
          const before = told.get(key) ?? [];
          if (form.together && isOne(asked.about) && before.some((other) => isSharedLimit(asked, other))) return;
          if (!form.together) told.set(key, [...before, asked]);
          report(problem);
        });
}

/** Whether several things are one and the same, listed under several names. */
function isOne(about: readonly Thing[]): boolean {
  const [first] = about;
  return first !== undefined && alike(first, about).length === about.length;
}

/** Of one thing alone, `sum(total d / limit) <= 1` asks what `total d <= limit` asks. */
function isSharedLimit(together: Asked, each: Asked): boolean {
  const [shared, own] = [together.expr, each.expr];
  if (shared.type !== 'compare' || own.type !== 'compare' || shared.op !== own.op) return false;
  const part = shared.left.type === 'call' && shared.left.name.text === 'sum' ? shared.left.args[0] : undefined;
  const whole = shared.right?.type === 'quantity' && shared.right.low?.value === 1;
  if (!whole || part?.type !== 'arithmetic' || part.op !== '/') return false;
  const [all, one] = [together.form.name, each.form.name];
  return isSameExpression(part.left, own.left, all, one) && isSameExpression(part.right, own.right, all, one);
}

function* askedIn(
  module: Module,
  things: Things,
  rule: Rule,
  form: TotalForm,
  visits: readonly (readonly Chunk[])[],
): Generator<Asked> {
  const found = new Set<Thing>();
  for (const chunks of visits)
    for (const chunk of chunks) {
      const giving = givingOf(chunk);
      for (const thing of giving.steps.keys()) if (fitsKind(thing.kind, form.kind)) found.add(thing);
      if (form.how === 'used') for (const thing of giving.named) if (fitsKind(thing.kind, form.kind)) found.add(thing);
    }
  if (found.size === 0) return;
  const about = [...found];
  const groups = form.together ? [about] : about.map((thing) => alike(thing, about)).filter(isFirst);
  for (const group of groups)
    for (const expr of form.expect) yield { module, things, rule, form, expr, visits, about: group };
}

/** What is listed twice under two names is one thing all the same, and its amounts add up. */
function alike(thing: Thing, among: readonly Thing[]): readonly Thing[] {
  return thing.entry ? among.filter((other) => other.entry === thing.entry) : [thing];
}

function isFirst(group: readonly Thing[], index: number, groups: readonly (readonly Thing[])[]): boolean {
  return groups.findIndex((other) => other[0] === group[0]) === index;
}

function judgeTotal(asked: Asked, report: Report): void {
  const { module, rule, form, expr, things } = asked;
  let open: Extract<SolvedAnswer, { answer: 'undecided' }> | undefined;
  for (const circumstance of circumstancesOf(form.where, things.excluded)) {
    const about = spokenOf(asked, circumstance);
    if (about.length === 0) continue;
    const answer = answerTo(asked, { about, circumstance, counted: {} });
    if (answer.answer === 'undecided') open ??= answer;
    if (answer.answer !== 'never' && answer.answer !== 'sometimes') continue;
    const broken =
      answer.answer === 'never' ? { answer, found: NOTHING_FOUND } : worst(asked, about, circumstance, answer);
    if (!broken) continue;
    report(wordTotal(asked, about, circumstance, broken));
    return;
  }
  if (!open) return;
  const [first] = asked.about;
  const env = environmentOf(asked, { about: asked.about, circumstance: undefined, counted: {} });
  const steps = stepsOf(asked.visits, asked.about);
  const place = first && steps[0] ? placeAtThing(steps[0], stepThing(steps[0], asked.about) ?? first) : undefined;
  const told =
    place && undecidedProblem(module, place, { what: wordsOf(expr, spokenOfAll(asked, env)), rule: rule.name }, open);
  if (told) report(told);
}

/** In words, the name that stands for each of several stands for all of them. */
function spokenOfAll({ form, about }: Asked, env: Environment): Environment {
  if (!form.together) return env;
  const all: Filling = { type: 'things', things: about.map((thing) => ({ thing, span: { start: 0, end: 0 } })) };
  return { ...env, filling: (name) => (name === form.name ? all : env.filling(name)) };
}
