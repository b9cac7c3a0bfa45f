import type { SourceFile } from '../analysis/snapshot.ts';
import { resolveUse } from '../analysis/use-path.ts';
import type { WorkspaceFiles } from '../ide/workspace-files.ts';
import { symbolsIn, type WorkspaceSymbol } from '../ide/workspace-symbols.ts';
import type { FileId } from '../problems/problem.ts';

/**
 * What stands in every file of the workspace. Nothing is read before somebody asks; then each file is read once, and again only when it
 * has changed, so that a keystroke costs the same in any number of files.
 */
export interface FilesIndex extends WorkspaceFiles {
  /**
   * Reads files that are not known, or not as they are now. Yields after each, so that much of it need not be done at a time; to be run to
   * its end before anything is asked.
   */
  readonly bringUpToDate: () => Generator<void, void>;
  /** a kept file may have changed, come or gone */
  readonly refresh: (id: FileId) => void;
  /** files may have come or gone */
  readonly relist: () => void;
  /** files go by other names now */
  readonly clear: () => void;
}

/** What is known of a file. */
interface Known {
  /** the text that it was made from; undefined for a kept file, which is known until it is refreshed */
  readonly of: SourceFile | undefined;
  readonly words: ReadonlySet<string>;
  readonly uses: ReadonlySet<FileId>;
  readonly symbols: readonly WorkspaceSymbol[];
}

/**
 * @param list the kept files of the workspace
 * @param opened the files that are open
 * @param look reads a file, open or kept
 */
export function createFilesIndex(
  list: () => readonly FileId[],
  opened: () => readonly FileId[],
  look: (id: FileId) => SourceFile | undefined,
): FilesIndex {
  const known = new Map<FileId, Known>();
  const byWord = new Map<string, Set<FileId>>();
  const byUse = new Map<FileId, Set<FileId>>();
  let listed: ReadonlySet<FileId> | undefined;

  const forget = (id: FileId) => {
    const before = known.get(id);
    if (!before) return;
    known.delete(id);
    for (const word of before.words) leave(byWord, word, id);
    for (const target of before.uses) leave(byUse, target, id);
  };
  const learn = (id: FileId, file: SourceFile, of: SourceFile | undefined) => {
    forget(id);
    const now: Known = { of, words: wordsIn(file.text), uses: usesIn(file), symbols: symbolsIn(file) };
    known.set(id, now);
    for (const word of now.words) enter(byWord, word, id);
    for (const target of now.uses) enter(byUse, target, id);
  };

  return {
    *bringUpToDate() {
      listed ??= new Set(list());
      const open = new Set(opened());
      for (const id of known.keys()) if (!listed.has(id) && !open.has(id)) forget(id);
      for (const id of new Set([...listed, ...open])) {
        if (id.startsWith('library:')) continue;
        const before = known.get(id);
        if (before && !open.has(id) && before.of === undefined) continue;
        const file = look(id);
        if (before && file && before.of === file) continue;
        if (file) learn(id, file, open.has(id) ? file : undefined);
        else forget(id);
        yield;
      }
    },
    refresh: (id) => {
      forget(id);
      listed = undefined;
    },
    relist: () => {
      listed = undefined;
    },
    clear: () => {
      known.clear();
      byWord.clear();
      byUse.clear();
      listed = undefined;
    },
    ids: () => [...known.keys()],
    withWord: (word) => [...(byWord.get(word) ?? [])],
    users: (id) => [...(byUse.get(id) ?? [])],
    *symbols() {
      for (const { symbols } of known.values()) yield* symbols;
    },
  };
}

/** Each word once, whatever it stands in: to look into a file in vain costs little, not to look into it would be wrong. */
function wordsIn(text: string): ReadonlySet<string> {
  return new Set(text.match(/[\p{L}_][\p{L}\p{N}_]*/gu));
}

function usesIn({ id, tree }: SourceFile): ReadonlySet<FileId> {
  const uses = new Set<FileId>();
  for (const item of tree.body.items) {
    if (item.type !== 'use' || !item.path) continue;
    const target = resolveUse(id, item.path.text);
    if (target.ok) uses.add(target.id);
  }
  return uses;
}

function enter(index: Map<string, Set<FileId>>, key: string, id: FileId): void {
  const ids = index.get(key);
  if (ids) ids.add(id);
  else index.set(key, new Set([id]));
}

function leave(index: Map<string, Set<FileId>>, key: string, id: FileId): void {
  const ids = index.get(key);
  ids?.delete(id);
  if (ids?.size === 0) index.delete(key);
}
