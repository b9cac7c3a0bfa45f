import { readdirSync, realpathSync, statSync } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';
import { ENDING, isLibrary } from '../analysis/use-path.ts';
import type { FileId } from '../problems/problem.ts';
import { isWithin, readBelow, realPath, workspaceRoot } from '../workspace/disk.ts';
import { createWorkspace, type Workspace } from '../workspace/workspace.ts';
import { reason, UsageError } from './output.ts';

/** Files to work on that belong to one workspace. */
export interface Input {
  readonly workspace: Workspace;
  readonly ids: readonly FileId[];
  /** how a file is named to who asked: its path from the folder asked from */
  readonly name: (id: FileId) => string;
}

/**
 * Finds the protocols that paths name: a file, or all `.curette` files below a folder, each once, in a stable order.
 * @param note is told what was passed over, in a sentence
 * @param none whether a folder may be without protocols
 */
export function openInputs(
  paths: readonly string[],
  note: (sentence: string) => void,
  none: 'may be none' | 'must be some' = 'must be some',
): Input[] {
  const workspaces = new Map<string, { ids: Set<FileId>; seen: Set<string> }>();
  for (const path of paths) {
    const folder = statOrFail(path).isDirectory();
    if (!folder && !path.endsWith(ENDING))
      throw new UsageError(`${path} is not a protocol: its name does not end in ${ENDING}.`);
    const root = workspaceRoot(path, process.cwd());
    const known = workspaces.get(root) ?? { ids: new Set(), seen: new Set() };
    workspaces.set(root, known);
    let some = false;
    const add = (file: string) => {
      some = true;
      const real = realPath(file);
      if (real !== undefined && known.seen.has(real)) return;
      if (real !== undefined) known.seen.add(real);
      known.ids.add(relative(root, file).split(sep).join('/'));
    };
    if (!folder) add(realpathSync(path));
    else {
      walk(realpathSync(path), root, add, note, new Set());
      if (!some && none === 'must be some') throw new UsageError(`There is no ${ENDING} file in ${path}.`);
    }
  }
  return [...workspaces].map(([root, { ids }]) => ({
    workspace: createWorkspace((id) => readBelow(root, id), today),
    ids: [...ids].sort(),
    name: (id) => (isLibrary(id) ? id : shortPath(join(root, id))),
  }));
}

/** One file, with the workspace it belongs to. */
export function openInput(path: string): Input & { readonly id: FileId } {
  if (statOrFail(path).isDirectory()) throw new UsageError(`${path} is a folder. Name one protocol's file.`);
  const [input] = openInputs([path], () => undefined);
  const id = input?.ids[0];
  if (!input || id === undefined) throw new UsageError(`${path} could not be opened.`);
  return { ...input, id };
}

/** Folders that hold what others made, and hidden ones. */
function isPassedOver(name: string): boolean {
  return name === 'node_modules' || name.startsWith('.');
}

function walk(
  folder: string,
  root: string,
  add: (file: string) => void,
  note: (sentence: string) => void,
  visited: Set<string>,
): void {
  if (visited.has(folder)) return;
  visited.add(folder);
  let entries: ReturnType<typeof listOf>;
  try {
    entries = listOf(folder);
  } catch (error) {
    throw new UsageError(`${shortPath(folder)} could not be read: ${reason(error)}.`);
  }
  for (const entry of entries) {
    if (isPassedOver(entry.name)) continue;
    const path = join(folder, entry.name);
    if (entry.isSymbolicLink()) followLink(path, root, add, note, visited);
    else if (entry.isDirectory()) walk(path, root, add, note, visited);
    else if (entry.name.endsWith(ENDING)) add(path);
  }
}

function listOf(folder: string) {
  return readdirSync(folder, { withFileTypes: true }).sort((a, b) => (a.name < b.name ? -1 : 1));
}

/** A link to a folder is followed only inside the workspace; one to a protocol outside is told when it is read. */
function followLink(
  path: string,
  root: string,
  add: (file: string) => void,
  note: (sentence: string) => void,
  visited: Set<string>,
): void {
  const real = realPath(path);
  if (path.endsWith(ENDING)) {
    add(path);
    return;
  }
  if (real === undefined || !statSync(real).isDirectory()) return;
  if (isWithin(root, real)) walk(real, root, add, note, visited);
  else note(`Not looked into: ${shortPath(path)} is a link that leads out of the workspace.`);
}

function statOrFail(path: string) {
  try {
    return statSync(path);
  } catch (error) {
    throw new UsageError(`${path} could not be read: ${reason(error)}.`);
  }
}

function shortPath(path: string): string {
  const way = relative(process.cwd(), path);
  return way === '' ? '.' : way.startsWith('..') ? resolve(path) : way.split(sep).join('/');
}

/** The day it is here, ISO 8601. */
export function today(): string {
  const now = new Date();
  const two = (n: number) => `${n}`.padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
