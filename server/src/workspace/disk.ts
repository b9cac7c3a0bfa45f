import { closeSync, existsSync, fstatSync, openSync, readSync, realpathSync, statSync } from 'node:fs';
import { dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import type { FileId } from '../problems/problem.ts';
import { type Content, LARGEST_FILE } from './workspace.ts';

/** A workspace on disk. Nothing is read that lies outside its root, whatever path or link leads there. */
export interface Disk {
  /** absolute, with its links followed */
  readonly root: string;
  readonly read: (id: FileId) => Content;
  /** the id of a file or folder by its path; undefined when it lies outside the root */
  readonly idOf: (path: string) => FileId | undefined;
  /** absolute path of a file of the workspace */
  readonly pathOf: (id: FileId) => string;
}

/** @param folder the workspace's root */
export function openDisk(folder: string): Disk {
  const root = realPath(folder) ?? resolve(folder);
  const pathOf = (id: FileId) => join(root, ...id.split('/'));
  return {
    root,
    pathOf,
    idOf: (path) => {
      const real = realPath(path) ?? resolve(path);
      return isWithin(root, real) ? relative(root, real).split(sep).join('/') : undefined;
    },
    read: (id) => readInside(root, pathOf(id)),
  };
}

/**
 * Where the workspace of a file or folder begins: the nearest folder above it (or itself) that has a `curette.json` or a
 * `.git`; if there is none, the folder asked from when that holds it, otherwise its own folder.
 * @param path an existing file or folder
 * @param from the folder asked from
 */
export function workspaceRoot(path: string, from: string): string {
  const real = realPath(path) ?? resolve(path);
  const own = isFolder(real) ? real : dirname(real);
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

function isFolder(path: string): boolean {
  return statSync(path, { throwIfNoEntry: false })?.isDirectory() ?? false;
}

function readInside(root: string, path: string): Content {
  let real: string;
  try {
    real = realpathSync(path);
  } catch (error) {
    return isAbsence(error) ? { type: 'absent' } : { type: 'unreadable' };
  }
  if (!isWithin(root, real)) return { type: 'outside' };
  let file: number | undefined;
  try {
    // A pipe or a device could be waited for without end: only plain files are opened.
    if (!statSync(real).isFile()) return { type: 'unreadable' };
    file = openSync(real, 'r');
    // One byte more than is allowed is enough to know that a file is too large.
    const bytes = Buffer.alloc(Math.min(fstatSync(file).size, LARGEST_FILE + 1));
    let length = 0;
    while (length < bytes.length) {
      const count = readSync(file, bytes, length, bytes.length - length, length);
      if (count === 0) break;
      length += count;
    }
    return { type: 'bytes', bytes: bytes.subarray(0, length) };
  } catch (error) {
    return isAbsence(error) ? { type: 'absent' } : { type: 'unreadable' };
  } finally {
    if (file !== undefined) closeSync(file);
  }
}

function isAbsence(error: unknown): boolean {
  const code = error instanceof Error && 'code' in error ? error.code : undefined;
  return code === 'ENOENT' || code === 'ENOTDIR';
}
