import type { FileFacts } from '../analysis/analysis.ts';
import type { Mend, Problem } from '../problems/problem.ts';
import { replacementsOf } from './apply-edit.ts';
import type { Checked } from './checked.ts';

/**
 * The mends of a problem of a file: those known to help, then those of `tries` that do. A mend is tried out on the file: the problem
 * has to be gone from its line, and nothing else may have become wrong.
 */
export function mendsOf(checked: Checked, problem: Problem): readonly Mend[] {
  const { tries, place } = problem;
  if (tries.length === 0) return problem.mends;
  const before = checked.facts(place.file);
  if (!before) return problem.mends;
  const known = countsOf(before);
  return [...problem.mends, ...tries.filter((mend) => helps(checked, problem, mend, known))];
}

function helps(checked: Checked, { code, rule, place }: Problem, mend: Mend, known: Counts): boolean {
  const changes = replacementsOf(checked, mend.edits);
  if (!changes || changes.length === 0 || changes.some(({ file }) => file !== place.file)) return false;
  const after = checked.tryOut(place.file, changes);
  if (!after) return false;
  const still = (other: Problem) =>
    other.code === code && other.rule === rule && other.place.statement === place.statement;
  if (after.problems.some(still)) return false;
  for (const [key, count] of countsOf(after)) if (count > (known.get(key) ?? 0)) return false;
  return true;
}

type Counts = ReadonlyMap<string, number>;

/** How many problems of each kind there are that make a protocol unfit or doubtful. */
function countsOf(facts: FileFacts): Counts {
  const counts = new Map<string, number>();
  for (const { code, rule, severity } of facts.problems) {
    if (severity === 'advice') continue;
    const key = `${severity}|${rule ?? code}`;
    counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  return counts;
}
