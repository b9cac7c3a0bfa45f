import type { FileId } from '../problems/problem.ts';
import { type Replacement, replacementsOf } from './apply-edit.ts';
import type { Checked } from './checked.ts';
import { locatedProblems } from './diagnostics.ts';
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
  const actions: CodeAction[] = [];
  for (const located of locatedProblems(checked, id)) {
    if (located.start > end || located.end < start) continue;
    let preferred = true;
    for (const { title, edits } of mendsOf(checked, located.problem)) {
      const changes = replacementsOf(checked, edits);
      if (!changes || changes.length === 0) continue;
      const name = located.problem.rule ?? located.problem.code;
      actions.push({ title, preferred, mends: { name, start: located.start, end: located.end }, changes });
      preferred = false;
    }
  }
  return actions;
}
