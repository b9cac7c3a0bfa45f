// What every other script stands on, with nothing but Node: a fresh clone has no packages yet.
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('../..', import.meta.url));

/** A failure whose sentence is all a person needs: no stack is printed for it. */
export class Failure extends Error {}

/** Runs `work` as a script's whole job; a `Failure` ends the process with its sentence and status 1. */
export async function main(work) {
  try {
    await work();
  } catch (error) {
    process.stderr.write(`\n${error instanceof Failure ? error.message : (error?.stack ?? error)}\n`);
    process.exitCode = 1;
  }
}

/**
 * Runs a command to its end, the project's own tools first on the path.
 * @param {{ env?: Record<string, string>, cwd?: string, allow?: number[], quiet?: boolean }} [options] `allow`: statuses
 * that are no failure; `quiet`: its output is shown only when it fails
 * @returns {Promise<number>} its exit status
 */
export function run(command, args, options = {}) {
  const env = {
    ...process.env,
    ...options.env,
    PATH: [join(root, 'node_modules/.bin'), process.env.PATH].join(delimiter),
  };
  const output = options.quiet ? 'pipe' : 'inherit';
  return new Promise((resolve, reject) => {
    const child = spawn(command, args, { cwd: options.cwd ?? root, env, stdio: ['ignore', output, output] });
    const said = [];
    for (const stream of [child.stdout, child.stderr]) stream?.on('data', (chunk) => said.push(chunk));
    child.on('error', (error) => reject(new Failure(`${command} could not be started: ${error.message}`)));
    child.on('close', (status, signal) => {
      if (status !== null && [0, ...(options.allow ?? [])].includes(status)) return resolve(status);
      for (const chunk of said) process.stdout.write(chunk);
      reject(new Failure(`"${[command, ...args].join(' ')}" ended with ${signal ?? `status ${status}`}.`));
    });
  });
}

/** Installs the locked packages when they are missing or differ from the lock file. */
export async function ensureInstalled() {
  const [major = 0] = process.versions.node.split('.').map(Number);
  if (major < 20) throw new Failure(`Curette needs Node 20 or newer; this is ${process.version}.`);
  const difference = installedDiffers();
  if (difference === undefined) return;
  process.stdout.write(`Installing packages: ${difference}.\n`);
  // "npm ci" begins by removing what is there; where there is something, only the difference is installed.
  const how = existsSync(join(root, 'node_modules')) ? 'install' : 'ci';
  await run(process.platform === 'win32' ? 'npm.cmd' : 'npm', [how, '--no-audit', '--no-fund']);
}

/** The Chromium that draws the editor: `CURETTE_CHROMIUM`, or the system's. */
export function chromium() {
  const named = process.env.CURETTE_CHROMIUM;
  if (named) return existsSync(named) ? named : undefined;
  return ['/usr/bin/chromium', '/usr/bin/chromium-browser'].find((path) => existsSync(path));
}

/**
 * Sees to it that the Debian packages which the in-editor tests need are there: installs them as root, otherwise says how.
 * Chromium draws the editor; the rest compiles the editor's native modules.
 */
export async function ensureHostPackages() {
  const missing = [
    ...(chromium() ? [] : ['chromium', 'fonts-liberation']),
    ...(existsSync('/usr/include/gssapi/gssapi.h') ? [] : ['libkrb5-dev']),
    ...(has('make') && has('g++') ? [] : ['make', 'g++']),
    ...(has('python3') ? [] : ['python3']),
  ];
  if (missing.length === 0) return;
  const command = `apt-get update && apt-get install -y ${missing.join(' ')}`;
  if (!has('apt-get') || process.getuid?.() !== 0) {
    throw new Failure(
      `The tests in a real editor need: ${missing.join(', ')}.\nOn Debian, as root: ${command}\n` +
        'Elsewhere: set CURETTE_CHROMIUM to a Chromium, or run "npm run test:host -- --desktop", which downloads a desktop build of the editor.',
    );
  }
  process.stdout.write(`Installing ${missing.join(', ')}.\n`);
  const options = { env: { DEBIAN_FRONTEND: 'noninteractive' }, quiet: true };
  await run('apt-get', ['update'], options);
  await run('apt-get', ['install', '-y', '--no-install-recommends', ...missing], options);
  if (!chromium())
    throw new Failure('Chromium was installed, but is not at /usr/bin/chromium. Set CURETTE_CHROMIUM to it.');
}

export const seconds = (since) => `${((performance.now() - since) / 1000).toFixed(1)} s`;

function has(command) {
  return spawnSync(command, ['--version'], { stdio: 'ignore' }).error === undefined;
}

/** Why the installed packages are not those of the lock file; undefined when they are. */
function installedDiffers() {
  const hidden = join(root, 'node_modules/.package-lock.json');
  if (!existsSync(hidden)) return 'node_modules is missing';
  const locked = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')).packages;
  const installed = JSON.parse(readFileSync(hidden, 'utf8')).packages;
  for (const [place, entry] of Object.entries(locked)) {
    if (!place.startsWith('node_modules/') || entry.optional) continue;
    const found = installed[place];
    if (!found || !existsSync(join(root, place))) return `${place} is missing`;
    if (found.version !== entry.version) return `${place} is ${found.version}, the lock file has ${entry.version}`;
  }
  return undefined;
}
