import { isOfDoses } from '../analysis/kinds/dosed.ts';
import { caseCautioned } from '../problems/case_cautioned.ts';
import { caseContraindicated } from '../problems/case_contraindicated.ts';
import { caseExcluded } from '../problems/case_excluded.ts';
import { contraindicationOpen } from '../problems/contraindication_open.ts';
import { figureNotStated } from '../problems/figure_not_stated.ts';
import { figuresConflict } from '../problems/figures_conflict.ts';
import { figuresNotApplied } from '../problems/figures_not_applied.ts';
import type { Problem } from '../problems/problem.ts';
import type { Checked } from './checked.ts';
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

/** What comes before a problem's own words, where they speak of a dose or of leave to use something. */
export function cautionOf(checked: Checked, problem: Problem): string | undefined {
  return CAUTIONED.has(problem.code) || isAboutDoses(checked, problem) ? CAUTION : undefined;
}

/** Whether the rule that is broken speaks of what is given in doses. */
function isAboutDoses(checked: Checked, { rule: name, place }: Problem): boolean {
  if (name === undefined) return false;
  const module = checked.modules().module(place.file);
  return (module?.closure ?? []).some((scope) => {
    const rule = scope.rules.has(name) ? module?.module(scope.id)?.declarations.rule(name) : undefined;
    return rule !== undefined && isOfDoses(rule);
  });
}
