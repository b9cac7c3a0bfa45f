import type { FileFacts } from '../analysis/analysis.ts';
import type { Edit, FileId, Mend, Problem } from '../problems/problem.ts';
import { type Replacement, replacementsOf } from './apply-edit.ts';
import type { Checked } from './checked.ts';
import { locatedProblems } from './diagnostics.ts';

/** All problems of one kind in a file can be mended at once. */
export interface FixAllOffer {
  /** the rule's name, or the problem's code */
  readonly name: string;
  /** two to five words for the problem */
  readonly title: string;
}

/** The kinds of problem, of those named, of which a file has at least two that a mend is known for. */
export function fixAllOffers(checked: Checked, id: FileId, names: ReadonlySet<string>): readonly FixAllOffer[] {
  const offers = new Map<string, FixAllOffer & { readonly edits: ReadonlySet<string> }>();
  for (const { problem } of locatedProblems(checked, id)) {
    const name = nameOf(problem);
    const mend = names.has(name) ? ownMend(id, problem) : undefined;
    if (!mend) continue;
    const edits = new Set(offers.get(name)?.edits).add(JSON.stringify(mend.edits));
    offers.set(name, { name, title: problem.title, edits });
  }
  return [...offers.values()].flatMap(({ name, title, edits }) => (edits.size > 1 ? [{ name, title }] : []));
}

/**
 * What mends all problems of a kind in a file, each with its preferred mend, in one go. Mends that would change the same words are made for
 * the first of their problems only. Where lines are added or taken away, one may be what another problem was missing as well: each mend
 * then has to leave one problem less than those before it, or is left out.
 */
export function fixAll(checked: Checked, id: FileId, name: string): readonly Replacement[] {
  const mends = locatedProblems(checked, id).flatMap(({ problem }) =>
    nameOf(problem) === name ? (ownMend(id, problem) ?? []) : [],
  );
  const chosen = compatible(checked, mends);
  const all = editsOf(chosen);
  const before = countOf(checked.facts(id), name);
  const left = (edits: readonly Edit[]): number => {
    const changes = replacementsOf(checked, edits);
    return changes ? countOf(checked.tryOut(id, changes), name) : Number.POSITIVE_INFINITY;
  };
  if (chosen.every(isRewording) || chosen.length < 2 || left(all) <= before - chosen.length)
    return replacementsOf(checked, all) ?? [];
  let helping: readonly Edit[] = [];
  let now = before;
  for (const mend of chosen.slice(0, MOST_TRIED)) {
    const then = left([...helping, ...mend.edits]);
    if (then >= now) continue;
    helping = [...helping, ...mend.edits];
    now = then;
  }
  return replacementsOf(checked, helping) ?? [];
}

/** How many mends are tried out one on top of the other; each takes as long as looking at the file does. */
const MOST_TRIED = 40;

/** What rewrites all that is read as it was meant already, and written otherwise: no line means anything else after it. */
export function fixSpelling(checked: Checked, id: FileId): readonly Replacement[] {
  const mends = locatedProblems(checked, id).flatMap(
    ({ problem }) => problem.mends.find(({ spelling }) => spelling) ?? [],
  );
  return replacementsOf(checked, editsOf(compatible(checked, mends))) ?? [];
}

/** Each once, without those that would change words that one before them changes. */
function compatible(checked: Checked, mends: readonly Mend[]): readonly Mend[] {
  const chosen: Mend[] = [];
  const known = new Set<string>();
  const taken: Replacement[] = [];
  for (const mend of mends) {
    const key = JSON.stringify(mend.edits);
    const changes = known.has(key) ? undefined : replacementsOf(checked, mend.edits);
    known.add(key);
    if (!changes || changes.length === 0 || changes.some((one) => taken.some((other) => collide(one, other)))) continue;
    taken.push(...changes);
    chosen.push(mend);
  }
  return chosen;
}

/** Lines added at one place stand below each other. */
function collide(one: Replacement, other: Replacement): boolean {
  const bothAdd = one.start === one.end && other.start === other.end;
  return !bothAdd && one.start <= other.end && other.start <= one.end;
}

function editsOf(mends: readonly Mend[]): readonly Edit[] {
  return mends.flatMap(({ edits }) => edits);
}

/** Words changed here have nothing to do with words changed there. */
function isRewording({ edits }: Mend): boolean {
  return edits.every(({ type }) => type === 'replace' || type === 'add use');
}

function countOf(facts: FileFacts | undefined, name: string): number {
  return facts?.problems.filter((problem) => nameOf(problem) === name).length ?? Number.POSITIVE_INFINITY;
}

function nameOf(problem: Problem): string {
  return problem.rule ?? problem.code;
}

/** The mend that a problem offers first, if it changes its own file alone. */
function ownMend(id: FileId, { mends }: Problem): Mend | undefined {
  const [mend] = mends;
  return mend?.edits.every((edit) => (edit.type === 'replace' ? edit.place.file : edit.file) === id) ? mend : undefined;
}
