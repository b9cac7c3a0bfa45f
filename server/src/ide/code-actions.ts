import type { FileId } from '../problems/problem.ts';
import { type Replacement, replacementsOf } from './apply-edit.ts';
import type { Checked } from './checked.ts';
import { type LocatedProblem, locatedProblems } from './diagnostics.ts';
import { mendsOf } from './tried-mends.ts';

/** A mend the reader can take. */
export interface CodeAction {
  readonly title: string;
  /** the first mend of its problem */
  readonly preferred: boolean;
  /** the problem it mends, told as `diagnostics` tells it */
  readonly mends: { readonly name: string; readonly start: number; readonly end: number };
  readonly changes: readonly Replacement[];
}

/** The mends of the problems that a stretch of a file touches. */
export function codeActions(checked: Checked, id: FileId, start: number, end: number): readonly CodeAction[] {
  return problemsTouching(checked, id, start, end).flatMap((located) => mendActions(checked, located));
}

export function problemsTouching(checked: Checked, id: FileId, start: number, end: number): readonly LocatedProblem[] {
  return locatedProblems(checked, id).filter((located) => located.start <= end && located.end >= start);
}

/** The mends of one problem. Some are tried out first, each as long as a look at the changed file takes. */
export function mendActions(checked: Checked, { problem, start, end }: LocatedProblem): readonly CodeAction[] {
  const actions: CodeAction[] = [];
  for (const { title, edits } of mendsOf(checked, problem)) {
    const changes = replacementsOf(checked, edits);
    if (!changes || changes.length === 0) continue;
    actions.push({
      title,
      preferred: actions.length === 0,
      mends: { name: problem.rule ?? problem.code, start, end },
      changes,
    });
  }
  return actions;
}
