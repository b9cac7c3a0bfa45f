import type { FileFacts } from '../analysis/analysis.ts';
import { isDosed, isOfDoses } from '../analysis/kinds/dosed.ts';
import type { Kind } from '../analysis/model.ts';
import type { Module } from '../analysis/names/module.ts';
import { caseCautioned } from '../problems/case_cautioned.ts';
import { caseContraindicated } from '../problems/case_contraindicated.ts';
import { caseExcluded } from '../problems/case_excluded.ts';
import { contraindicationOpen } from '../problems/contraindication_open.ts';
import { figureNotStated } from '../problems/figure_not_stated.ts';
import { figuresConflict } from '../problems/figures_conflict.ts';
import { figuresNotApplied } from '../problems/figures_not_applied.ts';
import { outsidePlausible } from '../problems/outside_plausible.ts';
import { overUsed } from '../problems/over_used.ts';
import type { Place, Problem } from '../problems/problem.ts';
import { CAUTION } from './hover/caution.ts';

/** Problems about whom something is not for, and about figures that bodies disagree on. */
const CAUTIONED = new Set(
  [
    contraindicationOpen,
    caseContraindicated,
    caseExcluded,
    caseCautioned,
    figureNotStated,
    figuresConflict,
    figuresNotApplied,
  ].map(({ code }) => code),
);

/**
 * What comes before a problem's own words, where they speak of a dose or of leave to use something.
 * @param facts of the file that the problem stands in
 */
export function cautionOf(facts: FileFacts, problem: Problem): string | undefined {
  return CAUTIONED.has(problem.code) || isAboutDoses(facts, problem) || isAboutMedicine(facts, problem)
    ? CAUTION
    : undefined;
}

/** Whether an amount or a value that is told belongs to what is given by body mass. */
function isAboutMedicine({ module, protocols }: FileFacts, { code, place, related }: Problem): boolean {
  switch (code) {
    case overUsed.code:
      return protocols.some(({ context }) =>
        [...context.things.byName.values()].some(
          ({ kind, statement }) => statement?.id === place.statement && isDosed(kind),
        ),
      );
    case outsidePlausible.code: {
      // What is plausible is said with the property, and a medicine has that property.
      const said = related[0]?.place;
      return said !== undefined && module !== undefined && dosedIn(module).some((kind) => declares(kind, said));
    }
    default:
      return false;
  }
}

function dosedIn(module: Module): readonly Kind[] {
  return module.closure.flatMap((scope) =>
    [...scope.kinds.keys()].flatMap((name) => {
      const kind = module.module(scope.id)?.declarations.kind(name);
      return kind && isDosed(kind) ? [kind] : [];
    }),
  );
}

function declares(kind: Kind, said: Place): boolean {
  return [...kind.properties.values()].some(
    ({ ground: { place } }) => place.file === said.file && place.statement === said.statement,
  );
}

/** By module, whether a rule of that name speaks of doses: asked for every problem after every keystroke. */
const aboutDoses = new WeakMap<Module, Map<string, boolean>>();

/** Whether the rule that is broken speaks of what is given in doses. */
function isAboutDoses({ module }: FileFacts, { rule: name }: Problem): boolean {
  if (name === undefined || !module) return false;
  const known = aboutDoses.get(module) ?? new Map<string, boolean>();
  aboutDoses.set(module, known);
  const kept = known.get(name);
  if (kept !== undefined) return kept;
  const is = module.closure.some((scope) => {
    const rule = scope.rules.has(name) ? module.module(scope.id)?.declarations.rule(name) : undefined;
    return rule !== undefined && isOfDoses(rule);
  });
  known.set(name, is);
  return is;
}
