import { randomBytes } from 'node:crypto';
import { chmodSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import pc from 'picocolors';
import { type Ink, type TextStyle, unpainted } from '../render/problem-text.ts';

/** What ends the command with a sentence and no stack: bad usage, or input that cannot be read. Its status is 2. */
export class UsageError extends Error {}

/** Writes to the standard output; a reader that has closed it (`| head`) ends the command quietly. */
export function print(text: string): void {
  process.stdout.write(text);
}

/** Lets a closed pipe end the command instead of failing it. */
export function endQuietlyOnClosedPipe(): void {
  for (const stream of [process.stdout, process.stderr])
    stream.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code !== 'EPIPE') throw error;
      process.exit();
    });
}

/** Colours on a terminal; none into a pipe or a file, with `NO_COLOR`, or on a terminal that has none. */
export function painter(): TextStyle['paint'] {
  const colours =
    process.stdout.isTTY === true && !process.env.NO_COLOR && process.env.TERM !== 'dumb'
      ? pc.createColors(true)
      : undefined;
  if (!colours) return unpainted;
  const inks: Readonly<Record<Ink, (text: string) => string>> = {
    error: (text) => colours.red(text),
    warning: (text) => colours.yellow(text),
    advice: (text) => colours.cyan(text),
    title: (text) => colours.bold(text),
    quiet: (text) => colours.dim(text),
  };
  return (ink, text) => inks[ink](text);
}

/** Columns of the terminal; into a pipe or a file, 100. */
export function columns(): number {
  return process.stdout.columns || 100;
}

/** Writes a file whole or not at all: beside its place first, then moved there. One that was there gives it its permissions. */
export function writeWhole(path: string, text: string): void {
  const old = statSync(path, { throwIfNoEntry: false });
  if (old?.isDirectory()) throw new UsageError(`${path} is a folder. Name a file to write to.`);
  const beside = join(dirname(path), `.${basename(path)}.${randomBytes(6).toString('hex')}.tmp`);
  try {
    writeFileSync(beside, text, { flag: 'wx' });
    if (old) chmodSync(beside, old.mode & 0o7777);
    renameSync(beside, path);
  } catch (error) {
    remove(beside);
    throw new UsageError(`${path} could not be written: ${reason(error)}.`);
  }
}

/** Takes a file away that may never have been made. */
function remove(path: string): void {
  try {
    rmSync(path, { force: true });
  } catch {
    // What went wrong is told already.
  }
}

/** What the system says went wrong, in words. */
export function reason(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? error.code : undefined;
  switch (code) {
    case 'ENOENT':
      return 'there is no such file or folder';
    case 'ENOTDIR':
      return 'a part of the path is not a folder';
    case 'EACCES':
    case 'EPERM':
      return 'access is not allowed';
    case 'ELOOP':
      return 'its links lead round in a circle';
    case 'ENOSPC':
      return 'the disk is full';
    case 'EROFS':
      return 'the disk is read-only';
    case 'ENAMETOOLONG':
      return 'the name is too long';
    default:
      return error instanceof Error ? error.message : String(error);
  }
}
