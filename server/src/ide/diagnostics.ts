import type { Statement, SyntaxTree } from '@curette/grammar';
import { offsetsOf } from '../analysis/locate.ts';
import type { FileId, Place, Problem, Severity } from '../problems/problem.ts';
import { cautionOf } from './cautioned.ts';
import type { Checked, Stretch } from './checked.ts';

/** A problem as the editor shows it. */
export interface Diagnostic {
  readonly start: number;
  readonly end: number;
  readonly severity: Severity;
  /** the rule's name, or the problem's code; names the page about it */
  readonly name: string;
  /** what is so; then, each on a line of its own, why it matters, what that rests on, and what comes before it where it is a dose */
  readonly message: string;
  readonly related: readonly (Stretch & { readonly message: string })[];
}

/** The problems of a file, in the order of its text. */
export function diagnostics(checked: Checked, id: FileId): readonly Diagnostic[] {
  return locatedProblems(checked, id).map(({ problem, start, end }) => ({
    start,
    end,
    severity: problem.severity,
    name: problem.rule ?? problem.code,
    message: messageOf(problem, cautionOf(checked, problem)),
    related: problem.related.flatMap(({ place, message }) => {
      const stretch = stretchOf(checked, place);
      return stretch ? [{ ...stretch, message }] : [];
    }),
  }));
}

/** A problem with where it is now. */
export interface LocatedProblem {
  readonly problem: Problem;
  readonly start: number;
  readonly end: number;
}

/** The problems of a file with where each is now, in the order of its text. */
export function locatedProblems(checked: Checked, id: FileId): readonly LocatedProblem[] {
  const facts = checked.facts(id);
  if (!facts) return [];
  const starts = startsOf(facts.file.tree, new Set(facts.problems.map((problem) => problem.place.statement)));
  return facts.problems
    .flatMap((problem) => {
      const from = problem.place.statement === 0 ? 0 : starts.get(problem.place.statement);
      if (from === undefined) return [];
      const { span } = problem.place;
      return [{ problem, start: from + span.start, end: from + span.end }];
    })
    .sort((a, b) => a.start - b.start);
}

/** Where a place is now; undefined when its file or statement is gone. */
export function stretchOf(checked: Checked, place: Place): Stretch | undefined {
  const file = checked.snapshot().file(place.file);
  const offsets = file && offsetsOf(file.tree, place);
  return offsets && { file: place.file, ...offsets };
}

function messageOf(problem: Problem, caution: string | undefined): string {
  const lines = [problem.message];
  if (problem.why !== undefined) lines.push(`Why: ${problem.why}`);
  if (problem.source) lines.push(`Source: ${problem.source.citation}`);
  if (caution !== undefined) lines.push(caution);
  return lines.join('\n');
}

/** Where some statements start. After each keystroke only a few are asked for, in a tree that was just made. */
function startsOf(tree: SyntaxTree, ids: ReadonlySet<number>): ReadonlyMap<number, number> {
  const starts = new Map<number, number>();
  const visit = (body: SyntaxTree['body'], base: number): void => {
    for (let i = 0; i < body.items.length && starts.size < ids.size; i++) {
      const statement = body.items[i] as Statement;
      const start = base + (body.offsets[i] as number);
      if (ids.has(statement.id)) starts.set(statement.id, start);
      if (statement.body) visit(statement.body, start);
    }
  };
  visit(tree.body, 0);
  return starts;
}
