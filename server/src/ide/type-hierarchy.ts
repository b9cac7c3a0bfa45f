import { locate } from '../analysis/locate.ts';
import type { Entry, Kind } from '../analysis/model.ts';
import { entryNamed, kindNamed } from '../analysis/names/resolve.ts';
import type { FileId } from '../problems/problem.ts';
import type { Checked, Stretch } from './checked.ts';
import { type Named, namedAt } from './named.ts';
import { referencesTo } from './references.ts';
import type { WorkspaceFiles } from './workspace-files.ts';

/** A kind, or an entry of the catalogue, in the order of what is what. */
export interface TypeItem {
  readonly sort: 'kind' | 'entry';
  readonly name: string;
  readonly label: string;
  readonly file: FileId;
  /** the declaration, and its name in it */
  readonly whole: Stretch;
  readonly word: Stretch;
}

/** The kind or entry that stands at an offset, of a thing what it is listed as. */
export function typeItemAt(checked: Checked, id: FileId, offset: number): TypeItem | undefined {
  const at = namedAt(checked, id, offset);
  const declared = at && declaredAs(checked, at.named);
  return declared && itemOf(checked, declared);
}

/** What it is. */
export function supertypes(checked: Checked, id: FileId, offset: number): readonly TypeItem[] {
  const at = namedAt(checked, id, offset);
  const declared = at && declaredAs(checked, at.named);
  if (!declared) return [];
  const above = 'parent' in declared ? declared.parent : declared.kind;
  return above ? [itemOf(checked, above) ?? []].flat() : [];
}

/** The kinds and entries that are this one, directly, in all files. */
export function* subtypes(
  checked: Checked,
  files: WorkspaceFiles,
  id: FileId,
  offset: number,
): Generator<void, readonly TypeItem[]> {
  const at = namedAt(checked, id, offset);
  if (at?.named.sort !== 'kind') return [];
  const [key] = at.named.keys;
  const modules = checked.modules();
  const found = new Map<string, TypeItem>();
  for (const { file, around } of yield* referencesTo(checked, files, at.named)) {
    const statement = around.path.at(-1)?.statement;
    if ((statement?.type !== 'kind' && statement?.type !== 'entry') || !statement.name) continue;
    const module = modules.module(file);
    const name = statement.name.text;
    const one = module && (statement.type === 'kind' ? kindNamed(module, name) : entryNamed(module, name));
    const above = one && ('parent' in one ? one.parent : one.kind);
    if (!one || one.statement !== statement || !above || key !== keyOfKind(above)) continue;
    const item = itemOf(checked, one);
    if (item) found.set(`${file} ${item.whole.start}`, item);
  }
  return [...found.values()];
}

/** The kinds and entries that stand wherever this kind is asked for: those below it, and those below them. */
export function* implementations(
  checked: Checked,
  files: WorkspaceFiles,
  id: FileId,
  offset: number,
): Generator<void, readonly Stretch[]> {
  const found = new Map<string, Stretch>();
  const open: Stretch[] = [{ file: id, start: offset, end: offset }];
  for (let next = open.shift(); next; next = open.shift())
    for (const { word, sort } of yield* subtypes(checked, files, next.file, next.start)) {
      const key = `${word.file} ${word.start}`;
      if (found.has(key)) continue;
      found.set(key, word);
      if (sort === 'kind') open.push(word);
    }
  return [...found.values()];
}

function declaredAs(checked: Checked, { sort, name, declarations }: Named): Kind | Entry | undefined {
  const [place] = declarations;
  const module = place && checked.modules().module(place.file);
  if (!module) return undefined;
  if (sort === 'kind') return kindNamed(module, name);
  return sort === 'entry' ? entryNamed(module, name) : undefined;
}

function keyOfKind({ file, statement, name }: Kind): string {
  return ['kind', file, statement.id, name].join('\n');
}

function itemOf(checked: Checked, declared: Kind | Entry): TypeItem | undefined {
  const { file, statement, name, label } = declared;
  const source = checked.snapshot().file(file);
  const start = source && locate(source.tree, statement.id)?.start;
  if (start === undefined || !statement.name) return undefined;
  return {
    sort: statement.type,
    name,
    label,
    file,
    whole: { file, start: start + statement.head.start, end: start + statement.length },
    word: { file, start: start + statement.name.start, end: start + statement.name.end },
  };
}
