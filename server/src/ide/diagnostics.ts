import type { FileFacts } from '../analysis/analysis.ts';
import { offsetsOf, startsOf } from '../analysis/locate.ts';
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
  const facts = checked.facts(id);
  if (!facts) return [];
  const placed = placesIn(
    facts,
    facts.problems.flatMap(({ place, related }) => [place, ...related.map((other) => other.place)]),
  );
  return located(facts, placed).map(({ problem, start, end }) => ({
    start,
    end,
    severity: problem.severity,
    name: problem.rule ?? problem.code,
    message: messageOf(problem, cautionOf(facts, problem)),
    related: problem.related.flatMap(({ place, message }) => {
      const stretch = place.file === id ? placed(place) : stretchOf(checked, place);
      return stretch ? [{ file: place.file, start: stretch.start, end: stretch.end, message }] : [];
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
  return located(
    facts,
    placesIn(
      facts,
      facts.problems.map(({ place }) => place),
    ),
  );
}

/** Where a place is now; undefined when its file or statement is gone. */
export function stretchOf(checked: Checked, place: Place): Stretch | undefined {
  const file = checked.snapshot().file(place.file);
  const offsets = file && offsetsOf(file.tree, place);
  return offsets && { file: place.file, ...offsets };
}

type Placed = (place: Place) => { readonly start: number; readonly end: number } | undefined;

/** Where some places of one file are. After each keystroke only a few are asked for, in a tree that was just made. */
function placesIn({ file }: FileFacts, places: readonly Place[]): Placed {
  const own = places.filter((place) => place.file === file.id).map(({ statement }) => statement);
  const starts = startsOf(file.tree, new Set(own));
  return ({ statement, span }) => {
    const from = statement === 0 ? 0 : starts.get(statement);
    return from === undefined ? undefined : { start: from + span.start, end: from + span.end };
  };
}

function located({ problems }: FileFacts, placed: Placed): readonly LocatedProblem[] {
  return problems
    .flatMap((problem) => {
      const at = placed(problem.place);
      return at ? [{ problem, ...at }] : [];
    })
    .sort((a, b) => a.start - b.start);
}

function messageOf(problem: Problem, caution: string | undefined): string {
  const lines = [problem.message];
  if (problem.why !== undefined) lines.push(`Why: ${problem.why}`);
  if (problem.source) lines.push(`Source: ${problem.source.citation}`);
  if (caution !== undefined) lines.push(caution);
  return lines.join('\n');
}
