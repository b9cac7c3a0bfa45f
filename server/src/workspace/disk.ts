import {
  closeSync,
  type Dirent,
  existsSync,
  fstatSync,
  openSync,
  readdirSync,
  readSync,
  realpathSync,
  statSync,
} from 'node:fs';
import { dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import { type Content, LARGEST_FILE } from './workspace.ts';

/**
 * Reads a kept file below a folder. A path that leaves the folder, by itself or by a link, is not followed; neither is anything that is
 * no plain file.
 * @param root absolute path of the folder
 * @param path from the folder, parted by `/`
 */
export function readBelow(root: string, path: string): Content {
  try {
    const base = realpathSync(root);
    const file = realpathSync(join(base, path));
    if (!isWithin(base, file)) return { type: 'outside' };
    // A pipe or a device could be waited for without end.
    if (!statSync(file).isFile()) return { type: 'unreadable' };
    // One byte more than is allowed is enough to know that a file is too large.
    return { type: 'bytes', bytes: readAtMost(file, LARGEST_FILE + 1) };
  } catch (error) {
    return isAbsence(error) ? { type: 'absent' } : { type: 'unreadable' };
  }
}

/**
 * Where the workspace of a file or folder begins: the nearest folder above it (or itself) that has a `curette.json` or a
 * `.git`; if there is none, the folder asked from when that holds it, otherwise its own folder. Absolute, links followed.
 * @param path an existing file or folder
 * @param from the folder asked from
 */
export function workspaceRoot(path: string, from: string): string {
  const real = realPath(path) ?? resolve(path);
  const isFolder = statSync(real, { throwIfNoEntry: false })?.isDirectory() ?? false;
  const own = isFolder ? real : dirname(real);
  for (let folder = own; ; folder = dirname(folder)) {
    if (MARKS.some((mark) => existsSync(join(folder, mark)))) return folder;
    if (folder === dirname(folder)) break;
  }
  const asked = realPath(from) ?? resolve(from);
  return isWithin(asked, real) ? asked : own;
}

const MARKS = ['curette.json', '.git'];

/** Whether a path is a folder or lies below it; both absolute, links followed. */
export function isWithin(folder: string, path: string): boolean {
  const way = relative(folder, path);
  return way === '' || (way !== '..' && !way.startsWith(`..${sep}`) && !isAbsolute(way));
}

/** A path with its links followed; undefined when nothing is there or it cannot be reached. */
export function realPath(path: string): string | undefined {
  try {
    return realpathSync(path);
  } catch {
    return undefined;
  }
}

function isAbsence(error: unknown): boolean {
  return error instanceof Error && 'code' in error && (error.code === 'ENOENT' || error.code === 'ENOTDIR');
}

function readAtMost(file: string, most: number): Uint8Array {
  const descriptor = openSync(file, 'r');
  try {
    let bytes = new Uint8Array(Math.min(fstatSync(descriptor).size + 1, most));
    let length = 0;
    for (;;) {
      const read = readSync(descriptor, bytes, length, bytes.length - length, null);
      length += read;
      if (read === 0 || length >= most) return bytes.subarray(0, length);
      if (length < bytes.length) continue;
      // It has grown since its size was asked for.
      const larger = new Uint8Array(Math.min(bytes.length * 2, most));
      larger.set(bytes);
      bytes = larger;
    }
  } finally {
    closeSync(descriptor);
  }
}

/** More files than this in one folder are not offered to anybody. */
const MOST_OFFERED = 2000;

/**
 * The files below a folder whose name has an ending, as paths from it; hidden folders and others' packages are left out.
 * @param most where there are more, the rest is left out
 */
export function listBelow(root: string, ending: string, most = MOST_OFFERED): string[] {
  const found: string[] = [];
  const visit = (folder: string, depth: number): void => {
    for (const entry of entriesOf(join(root, folder))) {
      if (found.length >= most) return;
      const path = folder === '' ? entry.name : `${folder}/${entry.name}`;
      if (entry.isFile() && entry.name.endsWith(ending)) found.push(path);
      else if (entry.isDirectory() && depth < 12 && !entry.name.startsWith('.') && entry.name !== 'node_modules')
        visit(path, depth + 1);
    }
  };
  visit('', 0);
  return found.sort();
}

function entriesOf(folder: string): Dirent[] {
  try {
    return readdirSync(folder, { withFileTypes: true });
  } catch {
    return [];
  }
}
