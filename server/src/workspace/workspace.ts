import { parse, reparse } from '@curette/grammar';
import { libraryFiles } from '@curette/shared';
import { type Analysis, createAnalysis, type FileFacts } from '../analysis/analysis.ts';
import type { Modules } from '../analysis/names/module.ts';
import { isSettings } from '../analysis/settings.ts';
import type { Snapshot, SourceFile } from '../analysis/snapshot.ts';
import type { Checked } from '../ide/checked.ts';
import type { FileId } from '../problems/problem.ts';

/** What reading a file from wherever it is kept gives. */
export type Content =
  | { readonly type: 'bytes'; readonly bytes: Uint8Array }
  | { readonly type: 'text'; readonly text: string }
  | { readonly type: 'too large' }
  | { readonly type: 'not text' }
  | { readonly type: 'absent' }
  | { readonly type: 'unreadable' }
  /** a link leads out of the workspace */
  | { readonly type: 'outside' };

/** A replacement in an open file; offsets in UTF-16 units of the text before it. */
export interface TextChange {
  readonly start: number;
  readonly end: number;
  readonly text: string;
  /** the whole text after it, where that is at hand: it is then not put together, and kept, a second time */
  readonly whole?: string;
}

/**
 * Files as they are being worked on: those open in an editor as they are there, all others as they are kept, read when they are first
 * asked for. Gives the checker its snapshots.
 */
export interface Workspace {
  readonly open: (id: FileId, text: string) => void;
  /** changes an open file, one change after another */
  readonly change: (id: FileId, changes: readonly TextChange[]) => void;
  readonly close: (id: FileId) => void;
  readonly openIds: () => readonly FileId[];
  /** forgets what was read of a kept file, because it may have changed */
  readonly refresh: (id: FileId) => void;
  /** whether a file is still what is known of it; a kept one may have changed without anybody having said so yet */
  readonly isCurrent: (id: FileId) => boolean;
  /** forgets what was read of every kept file: folders have moved */
  readonly refreshAll: () => void;
  readonly snapshot: () => Snapshot;
  readonly facts: (id: FileId) => FileFacts | undefined;
  /** the facts of a file as they would be after changes in it, each in the text as it is now, none overlapping another */
  readonly tryOut: (id: FileId, changes: readonly TextChange[]) => FileFacts | undefined;
  /** the files as they would be after changes in several of them, as an experiment of which nothing is remembered */
  readonly trial: (changes: ReadonlyMap<FileId, readonly TextChange[]>) => Checked;
  readonly modules: () => Modules;
  /** a file as the snapshot has it; what has to be read for it is not kept */
  readonly look: (id: FileId) => SourceFile | undefined;
}

/** Nothing at the chair is written down in more than this; a larger file is most likely something else. Bytes. */
export const LARGEST_FILE = 8 * 1024 * 1024;

/**
 * @param read reads a kept file by its id; called once a file until it is refreshed
 * @param today gives the ISO 8601 date of now
 */
export function createWorkspace(read: (id: FileId) => Content, today: () => string): Workspace {
  const analysis: Analysis = createAnalysis();
  const opened = new Map<FileId, SourceFile>();
  const kept = new Map<FileId, SourceFile | undefined>();
  const library = libraryFiles.map(({ path }) => `library:${path}`);
  const shipped = new Map(libraryFiles.map((file) => [`library:${file.path}`, file]));

  const file = (id: FileId): SourceFile | undefined => {
    const open = opened.get(id);
    if (open) return open;
    if (kept.has(id)) return kept.get(id);
    const ours = shipped.get(id);
    const loaded: SourceFile | undefined = ours
      ? { id, text: ours.text, tree: ours.tree === '' ? parse(ours.text) : JSON.parse(ours.tree), trouble: undefined }
      : fromContent(id, id.startsWith('library:') ? { type: 'absent' } : read(id));
    kept.set(id, loaded);
    if (!loaded) analysis.forget(id);
    return loaded;
  };

  let current: Snapshot | undefined;
  const snapshot = (): Snapshot => {
    // A snapshot never changes: it has its own copy of what is open, and what is kept is read but once.
    if (!current) {
      const now = new Map(opened);
      current = { file: (id) => now.get(id) ?? file(id), library, today: today() };
    }
    return current;
  };
  const renew = () => {
    current = undefined;
  };

  return {
    open: (id, text) => {
      opened.set(id, fromText(id, text));
      renew();
    },
    change: (id, changes) => {
      let now: SourceFile | undefined = opened.get(id);
      if (!now) return;
      for (const change of changes) {
        const text: string = change.whole ?? now.text.slice(0, change.start) + change.text + now.text.slice(change.end);
        // The rest of the text was looked through when it came.
        const trouble: SourceFile['trouble'] =
          now.trouble || text.length > LARGEST_FILE || change.text.includes('\u0000') ? troubleOf(text) : undefined;
        const tree: SourceFile['tree'] =
          trouble || now.trouble || isSettings(id)
            ? parse(trouble || isSettings(id) ? '' : text)
            : reparse(now.tree, text, {
                start: change.start,
                oldEnd: change.end,
                newEnd: change.start + change.text.length,
              });
        now = { id, text, tree, trouble };
      }
      opened.set(id, now);
      renew();
    },
    close: (id) => {
      opened.delete(id);
      kept.delete(id);
      analysis.letGo(id);
      renew();
    },
    openIds: () => [...opened.keys()],
    refresh: (id) => {
      kept.delete(id);
      if (!opened.has(id)) analysis.letGo(id);
      renew();
    },
    isCurrent: (id) => {
      const known = kept.get(id);
      if (opened.has(id) || shipped.has(id) || !known) return true;
      const content = read(id);
      if (content.type === 'text') return known.text === content.text;
      return content.type === 'bytes' && known.text === textOf(content.bytes);
    },
    refreshAll: () => {
      for (const id of kept.keys()) if (!shipped.has(id)) kept.delete(id);
      renew();
    },
    snapshot,
    facts: (id) => analysis.facts(snapshot(), id),
    tryOut: (id, changes) => {
      const now = snapshot().file(id);
      return now && !now.trouble ? analysis.tryOut(snapshot(), changed(now, changes)) : undefined;
    },
    trial: (changes) => trialOf(analysis, snapshot(), changes),
    modules: () => analysis.modules(snapshot()),
    look: (id) => {
      if (opened.has(id) || kept.has(id) || shipped.has(id)) return file(id);
      const found = fromContent(id, read(id));
      if (!found) analysis.forget(id);
      return found;
    },
  };
}

/** What would be checked if several files were changed. */
function trialOf(analysis: Analysis, base: Snapshot, changes: ReadonlyMap<FileId, readonly TextChange[]>): Checked {
  const after = new Map<FileId, SourceFile>();
  for (const [id, list] of changes) {
    const now = base.file(id);
    if (now && !now.trouble) after.set(id, changed(now, list));
  }
  const apart = analysis.apart();
  const snapshot: Snapshot = { ...base, file: (id) => after.get(id) ?? base.file(id) };
  return {
    snapshot: () => snapshot,
    facts: (id) => apart.facts(snapshot, id),
    modules: () => apart.modules(snapshot),
    tryOut: (id, list) => {
      const now = snapshot.file(id);
      return now && !now.trouble ? apart.tryOut(snapshot, changed(now, list)) : undefined;
    },
    trial: (further) => trialOf(apart, snapshot, further),
  };
}

/** A file after changes, each in the text as it is, none overlapping another. */
function changed(file: SourceFile, changes: readonly TextChange[]): SourceFile {
  let { text, tree } = file;
  for (const change of changes.toSorted((a, b) => b.start - a.start)) {
    text = text.slice(0, change.start) + change.text + text.slice(change.end);
    const newEnd = change.start + change.text.length;
    tree = reparse(tree, text, { start: change.start, oldEnd: change.end, newEnd });
  }
  return { ...file, text, tree };
}

/** A file from what was read; undefined when there is none. */
function fromContent(id: FileId, content: Content): SourceFile | undefined {
  switch (content.type) {
    case 'absent':
      return undefined;
    case 'text':
      return fromText(id, content.text);
    case 'unreadable':
    case 'outside':
    case 'too large':
    case 'not text':
      return { id, text: '', tree: parse(''), trouble: content.type };
    case 'bytes': {
      if (content.bytes.length > LARGEST_FILE) return { id, text: '', tree: parse(''), trouble: 'too large' };
      const text = textOf(content.bytes);
      return text === undefined ? { id, text: '', tree: parse(''), trouble: 'not text' } : fromText(id, text);
    }
    default:
      return content satisfies never;
  }
}

/** Undefined for what is no UTF-8. */
function textOf(bytes: Uint8Array): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return undefined;
  }
}

function fromText(id: FileId, text: string): SourceFile {
  const trouble = troubleOf(text);
  // Settings are in a form of their own.
  return { id, text, tree: parse(trouble || isSettings(id) ? '' : text), trouble };
}

function troubleOf(text: string): SourceFile['trouble'] {
  if (text.length > LARGEST_FILE) return 'too large';
  return text.includes('\u0000') ? 'not text' : undefined;
}
