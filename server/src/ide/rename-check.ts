import { forEachStatement } from '@curette/grammar';
import type { SourceFile } from '../analysis/snapshot.ts';
import type { FileId, Problem } from '../problems/problem.ts';
import type { Checked } from './checked.ts';
import { type Named, namedAt, namesAt, placesOf, renamedKey } from './named.ts';
import { filesReaching, type Reference } from './references.ts';
import type { WorkspaceFiles } from './workspace-files.ts';

/** In more files than this the names alone are compared, not all that the checker has to say. */
const MOST_CHECKED = 40;

/**
 * Why a new name would change more than the name; undefined when it would not. The files are read as they would be: each line has to be
 * read as the same sort of line, each name at which the old or the new one stands has to stand for what it stood for, and nothing may
 * have become wrong.
 */
export function* whatBreaks(
  checked: Checked,
  files: WorkspaceFiles,
  named: Named,
  newName: string,
  references: readonly Reference[],
): Generator<void, string | undefined> {
  const byFile = new Map<FileId, Reference[]>();
  for (const reference of references) byFile.set(reference.file, [...(byFile.get(reference.file) ?? []), reference]);
  const changes = new Map(
    [...byFile].map(([id, list]) => [id, list.map(({ start, end }) => ({ start, end, text: newName }))]),
  );
  const trial = checked.trial(changes);
  const comparing: Comparing = { checked, trial, named, newName };

  for (const [id, list] of byFile) {
    const clash = otherShape(comparing, id) ?? otherMeaning(comparing, id, list);
    if (clash !== undefined) return clash;
    yield;
  }
  const declaring = new Set(named.declarations.map(({ file }) => file));
  const withNew = files.withWord(newName);
  for (const id of named.sort === 'group' ? withNew : filesReaching(files, declaring, withNew)) {
    if (byFile.has(id)) continue;
    const clash = otherMeaning(comparing, id, []);
    if (clash !== undefined) return clash;
    yield;
  }
  for (const id of [...byFile.keys()].slice(0, MOST_CHECKED)) {
    const now = checked.facts(id)?.problems ?? [];
    const then = trial.facts(id)?.problems ?? [];
    const [come] = beyond(then, now);
    if (come) return `With "${newName}", ${id} would have a problem. ${come.title}: ${come.message}`;
    const [gone] = beyond(now, then);
    if (gone) return `With "${newName}", a problem in ${id} would no longer be found. ${gone.title}: ${gone.message}`;
    yield;
  }
  return undefined;
}

interface Comparing {
  readonly checked: Checked;
  readonly trial: Checked;
  readonly named: Named;
  readonly newName: string;
}

/** A line that begins with another word may be another sort of line. */
function otherShape({ checked, trial, newName }: Comparing, id: FileId): string | undefined {
  const before = checked.snapshot().file(id);
  const after = trial.snapshot().file(id);
  if (!before || !after) return undefined;
  const [was, is] = [shapeOf(before), shapeOf(after)];
  const at = was.findIndex((line, i) => line.form !== is[i]?.form);
  if (at < 0 && was.length === is.length) return undefined;
  const line = lineAt(before.text, was[at]?.start ?? 0);
  return `"${newName}" would not be read as a name in line ${line} of ${id}.`;
}

function shapeOf(file: SourceFile): { readonly form: string; readonly start: number }[] {
  const shape: { form: string; start: number }[] = [];
  forEachStatement(file.tree, (statement, start) => {
    const form = [statement.type, ...statement.flaws.map(({ code }) => code)].join(' ');
    shape.push({ form, start: start + statement.head.start });
  });
  return shape;
}

/** Every name that is the old or the new one, before and after. */
function otherMeaning(comparing: Comparing, id: FileId, edited: readonly Reference[]): string | undefined {
  const { checked, trial, named, newName } = comparing;
  const file = checked.snapshot().file(id);
  const there = trial.snapshot().file(id);
  if (!file || !there) return undefined;
  const grown = newName.length - named.name.length;
  const moved = (offset: number) => offset + grown * edited.filter(({ start }) => start < offset).length;
  const mine = new Set(edited.map(({ start }) => start));
  const others = [named.name, newName].flatMap((word) =>
    placesOf(file.text, word)
      .filter((start) => !mine.has(start))
      .map((start) => namedAt(checked, id, start) ?? { start, named: undefined }),
  );
  for (const { start, named: was } of [...edited, ...others]) {
    const now = namedAt(trial, id, moved(start))?.named;
    const wanted = mine.has(start) && was ? renamed(was, named.name, newName) : was;
    if (sameMeaning(wanted, now)) continue;
    const line = lineAt(file.text, start);
    return now === undefined && placesOf(file.text, newName).length === 0
      ? `"${newName}" would stand for nothing in line ${line} of ${id}.`
      : `"${newName}" is taken: line ${line} of ${id} would mean something else.`;
  }
  // What stood for nothing before may not stand for it now.
  const count = namesAt(trial, id, newName).length;
  const expected = edited.length + namesAt(checked, id, newName).length;
  return count === expected ? undefined : `"${newName}" is written in ${id} already, and would mean this there.`;
}

function renamed(named: Named, from: string, to: string): Named {
  const keys = (list: readonly string[]) => list.map((key) => renamedKey(key, from, to));
  return { ...named, name: to, keys: keys(named.keys), family: keys(named.family) };
}

function sameMeaning(a: Named | undefined, b: Named | undefined): boolean {
  if (!a || !b) return a === b;
  return sameSet(a.keys, b.keys) && sameSet(a.family, b.family);
}

function sameSet(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((key) => b.includes(key));
}

/** The problems of a list that are more than another has of their sort. */
function beyond(problems: readonly Problem[], others: readonly Problem[]): readonly Problem[] {
  const left = new Map<string, number>();
  for (const problem of others) left.set(sortOf(problem), (left.get(sortOf(problem)) ?? 0) + 1);
  return problems.filter((problem) => {
    const count = (left.get(sortOf(problem)) ?? 0) - 1;
    left.set(sortOf(problem), count);
    return count < 0;
  });
}

function sortOf({ code, rule, severity }: Problem): string {
  return `${code} ${rule ?? ''} ${severity}`;
}

function lineAt(text: string, offset: number): number {
  return text.slice(0, offset).split('\n').length;
}
