import { parse } from '@curette/grammar';
import { ENDING, isLibrary, resolveUse, usePathTo } from '../analysis/use-path.ts';
import type { FileId } from '../problems/problem.ts';
import type { Replacement } from './apply-edit.ts';
import type { Checked } from './checked.ts';
import type { WorkspaceFiles } from './workspace-files.ts';

/** A file that goes by another path from now on. */
export interface Move {
  readonly from: FileId;
  readonly to: FileId;
}

/**
 * The edits, in the files as they are before the move, after which every `use` leads to the same file as before: those of the files that
 * bring in a moved one, and those of the moved files themselves.
 */
export function* fileRenameEdits(
  checked: Checked,
  files: WorkspaceFiles,
  moves: readonly Move[],
): Generator<void, readonly Replacement[]> {
  const goes = new Map(moves.map(({ from, to }) => [from, to]));
  const concerned = new Set([...goes.keys()].flatMap((id) => [id, ...files.users(id)]));
  const edits: Replacement[] = [];
  for (const id of concerned) {
    if (isLibrary(id)) continue;
    edits.push(...editsIn(checked, id, goes));
    yield;
  }
  return edits;
}

function editsIn(checked: Checked, id: FileId, goes: ReadonlyMap<FileId, FileId>): readonly Replacement[] {
  const body = checked.snapshot().file(id)?.tree.body;
  const here = goes.get(id) ?? id;
  return (body?.items ?? []).flatMap((item, i) => {
    const path = item.type === 'use' ? item.path : undefined;
    const leads = path && resolveUse(id, path.text);
    if (!path || !leads?.ok || isLibrary(leads.id)) return [];
    const target = goes.get(leads.id) ?? leads.id;
    const now = resolveUse(here, path.text);
    if (now.ok && now.id === target) return [];
    const text = target.endsWith(ENDING) ? usePathTo(here, target) : undefined;
    if (text === undefined || !leadsTo(here, text, target)) return [];
    const start = (body?.offsets[i] ?? 0) + path.start;
    return [{ file: id, start, end: start + path.end - path.start, text }];
  });
}

/** Whether a path can be written, and leads there: none leads into another folder that is worked in. */
function leadsTo(from: FileId, path: string, target: FileId): boolean {
  const [item] = parse(`use ${path}\n`).body.items;
  const written = item?.type === 'use' && item.flaws.length === 0 && item.path?.text === path;
  const leads = resolveUse(from, path);
  return written && leads.ok && leads.id === target;
}
