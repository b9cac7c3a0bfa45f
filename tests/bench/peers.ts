import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { join, resolve } from 'node:path';

/** Where the peers' packages and the programs that run them stand. */
export interface Peers {
  readonly folder: string;
}

/** What is copied beside the installed packages, so that its imports find them. */
const SOURCES = resolve('tests/bench/peers');

/**
 * Installs the peers into the user's cache, outside the project; their install scripts are not run. Says so and answers
 * undefined when that fails: then ours is measured alone.
 */
export function installPeers(): Peers | undefined {
  const folder = join(process.env.XDG_CACHE_HOME || join(homedir(), '.cache'), 'curette/bench-peers');
  const wanted = readFileSync(join(SOURCES, 'package.json'), 'utf8');
  const stamp = join(folder, 'installed.json');
  try {
    mkdirSync(folder, { recursive: true });
    for (const name of readdirSync(SOURCES)) cpSync(join(SOURCES, name), join(folder, name), { recursive: true });
    if (existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted) return { folder };
    process.stdout.write('Installing the peers to compare with.\n');
    const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';
    const { status, stderr } = spawnSync(npm, ['install', '--ignore-scripts', '--no-audit', '--no-fund'], {
      cwd: folder,
      encoding: 'utf8',
      shell: process.platform === 'win32',
    });
    if (status !== 0) throw new Error(stderr?.trim().split('\n').slice(-3).join('\n') || 'npm could not be started');
    // Last, and at once: half an installation is none.
    writeFileSync(`${stamp}.tmp`, wanted);
    renameSync(`${stamp}.tmp`, stamp);
    return { folder };
  } catch (error) {
    process.stdout.write(
      `The peers could not be installed, so ours is measured alone: ${error instanceof Error ? error.message : error}\n`,
    );
    return undefined;
  }
}
