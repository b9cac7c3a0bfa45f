import { isLibrary } from '../analysis/use-path.ts';
import type { FileId } from '../problems/problem.ts';
import type { Checked, Stretch } from './checked.ts';
import { stretchOf } from './diagnostics.ts';
import { isSame, type Named, type NamedAt, namedAt, namesAt } from './named.ts';
import type { WorkspaceFiles } from './workspace-files.ts';

/** A place where something is named. */
export interface Reference extends NamedAt {
  readonly declares: boolean;
}

/**
 * Every place where what stands at an offset is named, in all files of the workspace and in the library. Yields after each file, so that
 * whoever asks can do something else meanwhile, or leave it.
 */
export function* references(
  checked: Checked,
  files: WorkspaceFiles,
  id: FileId,
  offset: number,
  withDeclaration: boolean,
): Generator<void, readonly Stretch[]> {
  const asked = namedAt(checked, id, offset);
  if (!asked) return [];
  if (asked.named.sort === 'file') return usesOf(checked, files, asked.named.name);
  const found = yield* referencesTo(checked, files, asked.named);
  return found.filter(({ declares }) => withDeclaration || !declares);
}

/** Every place where something is named. */
export function* referencesTo(
  checked: Checked,
  files: WorkspaceFiles,
  named: Named,
): Generator<void, readonly Reference[]> {
  const found: Reference[] = [];
  for (const file of filesNaming(checked, files, named)) {
    found.push(...referencesWithin(checked, file, named));
    yield;
  }
  return found;
}

/** Every place of a file where something is named. */
export function referencesWithin(checked: Checked, id: FileId, named: Named): readonly Reference[] {
  const declared = named.declarations.flatMap((place) => (place.file === id ? (stretchOf(checked, place) ?? []) : []));
  return namesAt(checked, id, named.name)
    .filter((at) => isSame(at.named, named))
    .map((at) => ({
      ...at,
      declares:
        declared.some(({ start, end }) => start === at.start && end === at.end) ||
        // What a kind below declares again.
        (at.around.path.at(-1)?.statement.type === 'property' && at.named.sort === 'property' && isPropertyName(at)),
    }));
}

/**
 * The files that may name something: of what only its own block can name, that one; of what the workspace declares, those that reach the
 * declaration; of what the library does, all. The library's own come last.
 */
export function filesNaming(checked: Checked, files: WorkspaceFiles, named: Named): readonly FileId[] {
  const own = new Set(named.declarations.map(({ file }) => file));
  if (named.sort === 'slot' || named.sort === 'visit' || named.sort === 'lane' || named.sort === 'case')
    return [...own];
  const snapshot = checked.snapshot();
  const withWord = files.withWord(named.name);
  // A set of figures need not reach the property that takes its value from the group.
  const ids = new Set([...own, ...(named.sort === 'group' ? withWord : filesReaching(files, own, withWord))]);
  if ([...own].some(isLibrary) || own.size === 0)
    for (const id of snapshot.library) if (snapshot.file(id)?.text.includes(named.name)) ids.add(id);
  return [...ids];
}

/** Those of some files that bring in one of others, directly or not; all, where one of the others may be in use everywhere. */
export function filesReaching(
  files: WorkspaceFiles,
  targets: ReadonlySet<FileId>,
  some: readonly FileId[],
): readonly FileId[] {
  if (targets.size === 0 || [...targets].some(isLibrary)) return some;
  const reaching = new Set(targets);
  for (const id of reaching) for (const user of files.users(id)) reaching.add(user);
  return some.filter((id) => reaching.has(id));
}

function isPropertyName({ start, around }: NamedAt): boolean {
  const { statement, start: from } = around.path.at(-1) ?? {};
  return statement?.type === 'property' && from !== undefined && start === from + statement.name.start;
}

/** The lines that bring a file in. */
function usesOf(checked: Checked, files: WorkspaceFiles, target: FileId): readonly Stretch[] {
  const modules = checked.modules();
  const snapshot = checked.snapshot();
  const library = target.startsWith('library:') ? snapshot.library : [];
  return [...files.users(target), ...library].flatMap((id) => {
    const file = snapshot.file(id);
    return (modules.module(id)?.uses ?? []).flatMap(({ statement, target: leads }) => {
      const at = file?.tree.body.items.findIndex((item) => item.id === statement.id) ?? -1;
      const start = file?.tree.body.offsets[at];
      const { path } = statement;
      return leads === target && path && start !== undefined
        ? [{ file: id, start: start + path.start, end: start + path.end }]
        : [];
    });
  });
}
