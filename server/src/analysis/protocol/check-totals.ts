import type { Expr } from '@curette/grammar';
import { type Dimension, formatQuantity, type Quantity, withRange } from '@curette/shared';
import { type Place, problemAt, type Related, type Report } from '../../problems/problem.ts';
import { totalBroken } from '../../problems/total_broken.ts';
import { fitsKind } from '../kinds/subkind.ts';
import { placeOf, type Rule, type RuleForm } from '../model.ts';
import type { Module } from '../names/module.ts';
import { type Circumstance, circumstancesOf } from '../rules/circumstances.ts';
import { type Environment, type Evaluated, evaluate, judge, sides, withEach } from '../rules/evaluate.ts';
import { wordsOf } from '../rules/pattern.ts';
import { setsUsed } from '../rules/sets-used.ts';
import { judgeSolved, type Solved, type SolvedAnswer, withFact, worstValue } from '../rules/solve.ts';
import type { Chunk } from './chunks.ts';
import { forEachFlow, type StepFlow } from './flow.ts';
import { placeAtThing } from './flow-words.ts';
import { givenStandIn, patientIn } from './stand-in.ts';
import type { Filling } from './step.ts';
import type { Thing, Things } from './things.ts';
import { type Counted, givingOf, isPerBodyMass, mergeQuestion, type OpenQuestion, shareOf, totalOf } from './totals.ts';
import { undecidedProblem } from './undecided.ts';

type TotalForm = Extract<RuleForm, { type: 'total' }>;

/** So many combinations of findings are told apart; beyond them a total that can be broken is told without when. */
const MOST_COMBINATIONS = 32;

/** Rules about what adds up over a visit or the protocol: of each thing by itself, and of all of a kind together. */
export function checkTotals(
  module: Module,
  things: Things,
  rules: readonly Rule[],
  visits: readonly (readonly Chunk[])[],
  report: Report,
): void {
  for (const rule of rules)
    for (const form of rule.forms) {
      if (form.type !== 'total') continue;
      for (const scope of form.scope === 'visit' ? visits.map((chunks) => [chunks]) : [visits])
        for (const asked of askedIn(module, things, rule, form, scope)) judgeTotal(asked, report);
    }
}

/** One condition of a rule, asked of one thing or of several together, over a visit or the protocol. */
interface Asked {
  readonly module: Module;
  readonly things: Things;
  readonly rule: Rule;
  readonly form: TotalForm;
  readonly expr: Expr;
  readonly visits: readonly (readonly Chunk[])[];
  readonly about: readonly Thing[];
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
    report(problemOf(asked, about, circumstance, broken.answer, broken.found));
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

/** How a question is put: about which things, of which patients, and of what of all that happens. */
interface Put {
  readonly about: readonly Thing[];
  readonly circumstance: Circumstance | undefined;
  readonly counted: Counted;
  /** what each total came to, as it is asked for */
  readonly seen?: Map<Thing, Quantity>;
}

/** The things that a rule speaks of: all, unless its `where` tells them apart. */
function spokenOf(asked: Asked, circumstance: Circumstance): readonly Thing[] {
  const { form, about } = asked;
  if (!speaksOf(form.where, form.name)) return about;
  const env = environmentOf(asked, { about, circumstance, counted: {} });
  return about.filter((thing) => judge(form.where, withEach(env, form.name, thing)).answer !== 'never');
}

function speaksOf(expr: Expr | undefined, name: string): boolean {
  switch (expr?.type) {
    case 'and':
    case 'or':
    case 'compare':
    case 'arithmetic':
      return speaksOf(expr.left, name) || speaksOf(expr.right, name);
    case 'not':
      return speaksOf(expr.operand, name);
    case 'is':
    case 'relation':
      return speaksOf(expr.subject, name);
    case 'call':
      return expr.args.some((argument) => speaksOf(argument, name));
    case 'path':
      return expr.names[0]?.text === name;
    default:
      return false;
  }
}

function answerTo(asked: Asked, put: Put): SolvedAnswer {
  return judgeSolved(conditionOf(asked), environmentOf(asked, put));
}

/** It asks nothing where it does not speak: there it is kept. Which of several things it speaks of is told before. */
function conditionOf({ form: { where, together, name }, expr }: Asked): Expr {
  if (!where || (together && speaksOf(where, name))) return expr;
  const span = { start: expr.start, end: expr.end };
  return { type: 'or', ...span, left: { type: 'not', ...span, operand: where }, right: expr };
}

function environmentOf(asked: Asked, { about, circumstance, counted, seen }: Put): Environment {
  const { module, things, rule, form, visits } = asked;
  const patient = patientIn(things);
  const group = (thing: Thing): readonly Thing[] => (form.together ? [thing] : about);
  const added = (thing: Thing, wanted: Dimension | undefined, env: Environment): Evaluated =>
    group(thing)
      .map((one) => totalOf(visits, one, wanted, (around) => massOf(patient, around), env, counted))
      .reduce(plus);
  // While a condition is solved for a fact, it is asked over and over; what was written does not change meanwhile.
  const known = new Map<Thing, Map<Dimension | undefined, Evaluated>>();
  const of = (thing: Thing, wanted: Dimension | undefined, env: Environment): Evaluated => {
    const before = known.get(thing) ?? new Map<Dimension | undefined, Evaluated>();
    known.set(thing, before);
    const total = before.get(wanted) ?? added(thing, wanted, env);
    if (!hangsOnMass(thing)) before.set(wanted, total);
    if (total.type === 'quantity') seen?.set(thing, total.quantity);
    return total;
  };
  const perMass = new Map<Thing, boolean>();
  const hangsOnMass = (thing: Thing): boolean => {
    const hangs = perMass.get(thing) ?? group(thing).some((one) => isPerBodyMass(visits, one));
    perMass.set(thing, hangs);
    return hangs;
  };
  const base: Environment = {
    module: module.module(rule.file) ?? module,
    filling: () => undefined,
    thing: (name) => things.byName.get(name) ?? givenStandIn(things, name) ?? things.unlisted(name),
    state: undefined,
    relation: (relation) => circumstance?.relations.get(relation) ?? false,
    totals: {
      of,
      hangsOn: (thing) => (patient && hangsOnMass(thing) ? { thing: patient, property: 'mass' } : undefined),
      together: form.together ? { name: form.name, things: about } : undefined,
    },
  };
  const [first] = about;
  return first && !form.together ? withEach(base, form.name, first) : base;
}

/** The body mass that an amount per body mass is reckoned with. */
function massOf(patient: Thing | undefined, env: Environment): Evaluated {
  if (!patient) return { type: 'unknown', missing: "the patient's mass" };
  const names = [patient.name, 'mass'].map((text) => ({ text, start: 0, end: 0 }));
  return evaluate(
    { type: 'path', start: 0, end: 0, names },
    { ...env, thing: () => patient, filling: () => undefined },
  );
}

function plus(one: Evaluated, other: Evaluated): Evaluated {
  if (one.type !== 'quantity') return one;
  if (other.type !== 'quantity') return other;
  const range = {
    lo: one.quantity.range.lo + other.quantity.range.lo,
    hi: one.quantity.range.hi + other.quantity.range.hi,
  };
  return { type: 'quantity', quantity: withRange(one.quantity, range) };
}

// ── what has to be found for it to be broken ────────────────────────────────────────────────────────────────────────

type Found = ReadonlyMap<string, string>;

const NOTHING_FOUND: Found = new Map();

interface Broken {
  readonly answer: SolvedAnswer;
  readonly found: Found;
}

/** A way to break it, and how far. */
interface Way extends Broken {
  readonly extent: number;
}

/**
 * Over all paths at once, options that exclude one another would add up. So each combination of what may be found is judged by itself.
 * Undefined when it is kept in each; otherwise the surest way to break it, with what has to be found for it and no more.
 */
function worst(
  asked: Asked,
  about: readonly Thing[],
  circumstance: Circumstance,
  whole: SolvedAnswer,
): Broken | undefined {
  const open = openIn(asked.visits, about);
  const combinations = combinationsOf(open);
  if (open.size === 0 || !combinations) return { answer: whole, found: NOTHING_FOUND };
  const ask = (found: Found): Way => {
    const answer = answerTo(asked, { about, circumstance, counted: { found } });
    return { answer, found, extent: extentOf(answer) };
  };
  const first = combinations.map(ask).reduce((one, other) => (other.extent > one.extent ? other : one));
  if (first.extent === 0) return undefined;
  // What may be found otherwise as well, and it is broken all the same, need not be told.
  let { found } = first;
  for (const key of found.keys()) {
    const without = new Map([...found].filter(([other]) => other !== key));
    const values = [...(open.get(key)?.values ?? [])];
    if (values.every((value) => ask(new Map(without).set(key, value)).extent === first.extent)) found = without;
  }
  return { ...first, found };
}

/** How far a condition is broken: 0 not at all, up to 1 for part of what a given fact may be, 2 in other circumstances, 3 always. */
function extentOf(answer: SolvedAnswer): number {
  if (answer.answer === 'always' || answer.answer === 'undecided') return 0;
  if (answer.answer === 'never') return 3;
  if (!answer.solved) return 2;
  const { fact, canBreak } = answer.solved;
  const part = canBreak.range.hi - canBreak.range.lo;
  const whole = fact.possible.range.hi - fact.possible.range.lo;
  return Number.isFinite(whole) ? part / whole : Number.isFinite(part) ? 1 - 1 / (2 + part) : 1;
}

/** What is open of that which the things' amounts hang on. */
function openIn(visits: Asked['visits'], about: readonly Thing[]): ReadonlyMap<string, OpenQuestion> {
  const open = new Map<string, OpenQuestion>();
  for (const chunks of visits)
    for (const chunk of chunks)
      for (const [key, question] of givingOf(chunk).open)
        if (question.stops || about.some((thing) => question.about.has(thing))) mergeQuestion(open, key, question);
  return open;
}

/** Every combination of values; undefined when there are too many. */
function combinationsOf(open: ReadonlyMap<string, OpenQuestion>): readonly Found[] | undefined {
  let all: Found[] = [NOTHING_FOUND];
  for (const [key, { values }] of open) {
    if (all.length * values.size > MOST_COMBINATIONS) return undefined;
    all = all.flatMap((found) => [...values].map((value) => new Map(found).set(key, value)));
  }
  return all;
}

// ── telling it ──────────────────────────────────────────────────────────────────────────────────────────────────────

function problemOf(
  asked: Asked,
  about: readonly Thing[],
  circumstance: Circumstance,
  answer: SolvedAnswer,
  found: Found,
) {
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
function stepsOf(visits: Asked['visits'], about: readonly Thing[]): readonly StepFlow[] {
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

function stepThing(step: StepFlow, about: readonly Thing[]): Thing | undefined {
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
