import type { Expr } from '@curette/grammar';
import { type Dimension, type Quantity, withRange } from '@curette/shared';
import type { Rule, RuleForm } from '../model.ts';
import type { Module } from '../names/module.ts';
import type { Circumstance } from '../rules/circumstances.ts';
import { type Environment, type Evaluated, evaluate, withEach } from '../rules/evaluate.ts';
import { judge } from '../rules/judge.ts';
import { judgeSolved, type SolvedAnswer } from '../rules/solve.ts';
import type { Chunk } from './chunks.ts';
import { givenStandIn, patientIn } from './stand-in.ts';
import type { Thing, Things } from './things.ts';
import { type Counted, isPerBodyMass, totalOf } from './totals.ts';

export type TotalForm = Extract<RuleForm, { type: 'total' }>;

/** One condition of a rule, asked of one thing or of several together, over a visit or the protocol. */
export interface Asked {
  readonly module: Module;
  readonly things: Things;
  readonly rule: Rule;
  readonly form: TotalForm;
  readonly expr: Expr;
  readonly visits: readonly (readonly Chunk[])[];
  readonly about: readonly Thing[];
}

/** How a question is put: about which things, of which patients, and of what of all that happens. */
export interface Put {
  readonly about: readonly Thing[];
  readonly circumstance: Circumstance | undefined;
  readonly counted: Counted;
  /** what each total came to, as it is asked for */
  readonly seen?: Map<Thing, Quantity>;
}

/** The things that a rule speaks of: all, unless its `where` tells them apart. */
export function spokenOf(asked: Asked, circumstance: Circumstance): readonly Thing[] {
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

export function answerTo(asked: Asked, put: Put): SolvedAnswer {
  return judgeSolved(conditionOf(asked), environmentOf(asked, put));
}

/** It asks nothing where it does not speak: there it is kept. Which of several things it speaks of is told before. */
export function conditionOf({ form: { where, together, name }, expr }: Asked): Expr {
  if (!where || (together && speaksOf(where, name))) return expr;
  const span = { start: expr.start, end: expr.end };
  return { type: 'or', ...span, left: { type: 'not', ...span, operand: where }, right: expr };
}

export function environmentOf(asked: Asked, { about, circumstance, counted, seen }: Put): Environment {
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
export function massOf(patient: Thing | undefined, env: Environment): Evaluated {
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
