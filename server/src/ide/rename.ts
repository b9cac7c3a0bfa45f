import { words } from '@curette/grammar';
import { isLibrary, usePathTo } from '../analysis/use-path.ts';
import type { FileId } from '../problems/problem.ts';
import type { Replacement } from './apply-edit.ts';
import type { Checked, Stretch } from './checked.ts';
import { fileOfKey, isSame, type Named, type NamedSort, namedAt } from './named.ts';
import { type Reference, referencesTo } from './references.ts';
import { whatBreaks } from './rename-check.ts';
import { symbolAt } from './symbol-at.ts';
import type { WorkspaceFiles } from './workspace-files.ts';

export type Renaming<Done> =
  | ({ readonly ok: true } & Done)
  /** in words for whoever asked */
  | { readonly ok: false; readonly reason: string };

/** The word that would be renamed, or why it cannot be. */
export function prepareRename(
  checked: Checked,
  id: FileId,
  offset: number,
): Renaming<{ readonly word: Stretch; readonly name: string }> {
  const at = namedAt(checked, id, offset);
  if (!at) {
    const word = symbolAt(checked, id, offset)?.meaning;
    return refuse(
      word?.type === 'word'
        ? `"${word.word.word}" is a word of the language.`
        : 'Nothing with a name of its own stands here.',
    );
  }
  const { named, file, start, end } = at;
  const obstacle = obstacleOf(named);
  if (obstacle !== undefined) return refuse(obstacle);
  return { ok: true, word: { file, start, end }, name: named.name };
}

/**
 * All edits that give what stands at an offset another name, in every file that names it; or the reason why not a single one is made.
 * What the files would then mean is looked at first. Yields now and then, as `references` does.
 */
export function* rename(
  checked: Checked,
  files: WorkspaceFiles,
  id: FileId,
  offset: number,
  newName: string,
): Generator<void, Renaming<{ readonly edits: readonly Replacement[] }>> {
  const prepared = prepareRename(checked, id, offset);
  if (!prepared.ok) return prepared;
  const asked = namedAt(checked, id, offset)?.named;
  const unfit = unfitFor(newName, asked?.sort);
  if (!asked || unfit !== undefined) return refuse(unfit ?? 'Nothing with a name of its own stands here.');
  if (newName === asked.name) return { ok: true, edits: [] };

  const { named, found } = yield* wholeFamily(checked, files, asked);
  const obstacle = obstacleOf(named);
  if (obstacle !== undefined) return refuse(obstacle);
  const inLibrary = found.find(({ file }) => isLibrary(file));
  if (inLibrary) return refuse(fromLibrary(named, inLibrary.file));
  const broken = yield* whatBreaks(checked, files, named, newName, found);
  if (broken !== undefined) return refuse(broken);
  const edits = found.map(({ file, start, end }) => ({ file, start, end, text: newName }));
  return { ok: true, edits };
}

/** Actions that share a verb get a new one together, all that any of its lines could mean. */
function* wholeFamily(
  checked: Checked,
  files: WorkspaceFiles,
  asked: Named,
): Generator<void, { readonly named: Named; readonly found: readonly Reference[] }> {
  let named: Named = { ...asked, keys: asked.family };
  for (;;) {
    const found = yield* referencesTo(checked, files, named);
    const keys = new Set([...named.keys, ...found.flatMap((at) => at.named.family)]);
    const declarations = [
      ...named.declarations,
      ...found.flatMap((at) => at.named.declarations).filter((place) => !has(named.declarations, place)),
    ];
    const all: Named = { ...named, keys: [...keys], family: [...keys], declarations };
    if (keys.size === named.keys.length) return { named: all, found: found.filter((at) => isSame(at.named, all)) };
    named = all;
  }
}

function has(places: Named['declarations'], { file, statement, span }: Named['declarations'][number]): boolean {
  return places.some(
    (other) => other.file === file && other.statement === statement && other.span.start === span.start,
  );
}

/** Why something keeps its name, whatever the new one would be. */
function obstacleOf(named: Named): string | undefined {
  const { sort, name, declarations } = named;
  if (sort === 'file')
    return 'A file is renamed or moved in the list of files; every line that brings it in then follows.';
  if (sort === 'unit') return `Amounts spell a unit in many ways, so "${name}" is not renamed here.`;
  if (declarations.length === 0) return `"${name}" is part of the language.`;
  // An action keeps its verb where the library has another action of it.
  const library = [...declarations.map(({ file }) => file), ...named.family.map(fileOfKey)].find(isLibrary);
  return library === undefined ? undefined : fromLibrary(named, library);
}

function fromLibrary({ name, sort }: Named, file: FileId): string {
  const from = `"${name}" is from the shipped library (${usePathTo('', file)}), which stays as it is.`;
  switch (sort) {
    case 'kind':
    case 'entry':
      return `${from} Declare one of your own that is this (… is ${name}), and use its name.`;
    case 'actions':
      return `${from} Write a procedure with the name you want that does this step, and use it.`;
    case 'rule':
      return `${from} A rule of your own with "replaces ${name}" takes its place.`;
    default:
      return `${from} Declare one of your own beside it, and use its name.`;
  }
}

/** Why something cannot be called that. */
function unfitFor(name: string, sort: NamedSort | undefined): string | undefined {
  if (!/^\p{L}[\p{L}\p{N}_]*$/u.test(name))
    return `"${name}" is no name: a name is letters, digits and _, and begins with a letter.`;
  const taken: readonly string[] = [...words.reserved, ...((sort && MEANT_THERE[sort]) ?? [])];
  return taken.includes(name) ? `"${name}" is a word of the language and cannot be a name here.` : undefined;
}

/** Words that would be read as those of the language where names of a sort stand. */
const MEANT_THERE: Partial<Record<NamedSort, readonly string[]>> = {
  kind: [...words.quantities, ...words.propertyForms],
  state: ['any'],
  'finding value': ['any'],
  property: words.values['end of a range'],
};

function refuse(reason: string): { readonly ok: false; readonly reason: string } {
  return { ok: false, reason };
}
