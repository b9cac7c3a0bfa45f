import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, openSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, join } from 'node:path';

/** VS Code 1.100.3, as the npm registry carries it; a later one ignores the query by which tests are passed to the editor. */
const version = '4.100.3';

/** Compiled from source, one at a time: the packages' own install steps would fetch binaries from elsewhere. */
const native = ['@vscode/spdlog', 'native-watchdog', '@parcel/watcher', 'kerberos'];

/**
 * The folder of a VS Code server that can run the tests, prepared on first use (about a minute, 300 MB) in
 * `CURETTE_HOST_CACHE` or `~/.cache/curette/vscode-host`. It appears there complete or not at all.
 * @throws an error that says what failed, where its output is and what to do
 */
export async function hostFolder(): Promise<string> {
  const cache = hostCache();
  const ready = join(cache, `${version}-node${process.versions.modules}-${process.platform}-${process.arch}`);
  const folder = join(ready, 'node_modules/code-server/lib/vscode');
  if (existsSync(join(ready, 'complete'))) return folder;

  mkdirSync(cache, { recursive: true });
  const work = mkdtempSync(join(cache, 'preparing-'));
  const log = join(cache, 'prepare.log');
  rmSync(log, { force: true });
  process.stdout.write(`Preparing VS Code for the tests in ${ready}, about a minute, once.\n`);
  try {
    writeFileSync(join(work, 'package.json'), '{ "private": true }\n');
    await npm(['install', `code-server@${version}`, '--ignore-scripts'], work, log);
    const inside = join(work, 'node_modules/code-server/lib/vscode');
    await npm(['install', '--omit=dev', '--ignore-scripts', '--legacy-peer-deps'], inside, log);
    for (const name of native) await npm(['rebuild', name], inside, log);
    writeFileSync(join(work, 'complete'), `${new Date().toISOString()}\n`);
    moveTo(work, ready);
  } catch (error) {
    rmSync(work, { recursive: true, force: true });
    throw new Error(
      `VS Code for the tests could not be prepared: ${error instanceof Error ? error.message : error}\n` +
        `${lastLines(log)}\nThe whole output is in ${log}.\n` +
        'It comes from the npm registry and compiles with python3, make, g++ and libkrb5-dev ' +
        '("apt-get install python3 make g++ libkrb5-dev").\n' +
        'Where a desktop build can be downloaded, "npm run test:host -- --desktop" runs the same tests in that.',
    );
  }
  return folder;
}

/** Where editors for the tests are kept: `CURETTE_HOST_CACHE`, or a folder of the user's cache. */
export function hostCache(): string {
  return process.env.CURETTE_HOST_CACHE ?? join(homedir(), '.cache/curette/vscode-host');
}

/** Two runs may have prepared at once; the first one there is kept. */
function moveTo(work: string, ready: string): void {
  mkdirSync(dirname(ready), { recursive: true });
  try {
    renameSync(work, ready);
  } catch (error) {
    if (!existsSync(join(ready, 'complete'))) throw error;
    rmSync(work, { recursive: true, force: true });
  }
}

function npm(args: string[], cwd: string, log: string): Promise<void> {
  const output = openSync(log, 'a');
  const quiet = ['--no-audit', '--no-fund', '--no-update-notifier'];
  return new Promise((resolve, reject) => {
    const child = spawn('npm', [...args, ...quiet], { cwd, env: outsideNpm(), stdio: ['ignore', output, output] });
    child.on('error', reject);
    child.on('close', (status) =>
      status === 0 ? resolve() : reject(new Error(`"npm ${args.join(' ')}" ended with status ${status}`)),
    );
  });
}

/** The environment without what an enclosing `npm run` sets, which would point this npm at our own project. */
function outsideNpm(): NodeJS.ProcessEnv {
  const kept = Object.entries(process.env).filter(
    ([name]) => !/^npm_(?!config_(cache|registry|nodedir|cafile)$)/i.test(name),
  );
  return Object.fromEntries(kept);
}

function lastLines(file: string): string {
  return existsSync(file) ? readFileSync(file, 'utf8').trimEnd().split('\n').slice(-15).join('\n') : '';
}
