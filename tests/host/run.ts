import { cpSync, existsSync, mkdtempSync, readFileSync, realpathSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { type BuildOptions, build } from 'esbuild';
import { root } from '../scripts/setup.mjs';
import { hostCache } from './install.ts';
import { type Report, report } from './report.ts';
import { startEditor } from './serve.ts';

export const extension = join(root, 'client');
const bundled = join(root, 'tests/dist/host');

export interface Result {
  readonly name: string;
  /** What went wrong, with its stack; absent: it passed. */
  readonly error?: string;
}

/** The longest time without a new result, and before the first one, in ms. */
const patience = 90_000;

/**
 * Runs the suite inside a real editor, on a copy of the test workspace.
 * @param how `page`: VS Code's server with its window in a Chromium. `desktop`: a desktop build, downloaded by test-electron
 * @returns a result a test, in order
 * @throws when the editor cannot be had, crashes, hangs or ends without having finished the suite
 */
export async function runSuite(how: 'page' | 'desktop'): Promise<Result[]> {
  requireBuild();
  await bundleSuite();
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'curette-host-')));
  const workspace = join(folder, 'workspace');
  const file = join(folder, 'report.jsonl');
  cpSync(join(import.meta.dirname, 'workspace'), workspace, { recursive: true });
  const env = { CURETTE_HOST_REPORT: file };
  try {
    if (how === 'desktop') await runOnDesktop(workspace, env);
    else await runInPage(workspace, env, file);
    return results(readReport(file), '');
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Fails when the extension has not been built. */
export function requireBuild(): void {
  for (const name of ['extension.js', 'start.js', 'server.js']) {
    const path = join(extension, 'dist', name);
    if (!existsSync(path)) throw new Error(`${path} is missing: run "npm run build" first.`);
  }
}

async function bundleSuite(): Promise<void> {
  const common: BuildOptions = {
    bundle: true,
    platform: 'node',
    format: 'cjs',
    target: 'node20',
    external: ['vscode', 'mocha'],
    sourcemap: 'inline',
    define: { 'import.meta.dirname': '__dirname' },
    logLevel: 'warning',
  };
  const suite = join(import.meta.dirname, 'suite');
  await build({ ...common, entryPoints: [join(suite, 'index.ts')], outfile: join(bundled, 'index.cjs') });
  await build({ ...common, entryPoints: [join(suite, 'suite.ts')], outfile: join(bundled, 'suite.cjs') });
}

async function runInPage(workspace: string, env: Record<string, string>, file: string): Promise<void> {
  const editor = await startEditor(extension, env);
  try {
    const page = await editor.open(workspace, { tests: join(bundled, 'index.cjs') });
    const trouble: string[] = [];
    page.on('crash', () => trouble.push('the window crashed'));
    let seen = 0;
    let last = Date.now();
    for (;;) {
      await sleep(100);
      // Looked at before the report, which a host that ends well has completed by then.
      const ended = /Extension Host Process exited/.test(editor.output());
      const entries = readReport(file);
      if (entries.at(-1)?.kind === 'end') return;
      if (entries.length > seen) [seen, last] = [entries.length, Date.now()];
      if (ended) trouble.push('the extension host ended');
      if (Date.now() - last > patience) trouble.push(`nothing happened for ${patience / 1000} s`);
      if (trouble.length > 0) throw new Error(`${unfinished(entries)}: ${trouble.join(', ')}.\n${editor.output()}`);
    }
  } finally {
    await editor.close();
  }
}

async function runOnDesktop(workspace: string, env: Record<string, string>): Promise<void> {
  const { runTests } = await import('@vscode/test-electron');
  await runTests({
    cachePath: join(hostCache(), 'desktop'),
    extensionDevelopmentPath: extension,
    extensionTestsPath: join(bundled, 'index.cjs'),
    extensionTestsEnv: env,
    launchArgs: [workspace, '--disable-extensions', '--disable-workspace-trust'],
  }).catch((error: unknown) => {
    // Failed tests are told by name from their report; anything else means that there was no editor to run them in.
    if (readReport(env.CURETTE_HOST_REPORT ?? '').at(-1)?.kind === 'end') return;
    throw new Error(
      `The desktop editor could not run the tests: ${error instanceof Error ? error.message : error}\n` +
        'It is downloaded on first use. Where it cannot be, "npm run test:host" runs the same tests in VS Code\'s server.',
    );
  });
}

function readReport(file: string): Report[] {
  if (!existsSync(file)) return [];
  // A line still being written has no line end yet.
  const lines = readFileSync(file, 'utf8').split('\n').slice(0, -1);
  return lines.map((line) => report.parse(JSON.parse(line)));
}

function results(entries: readonly Report[], output: string): Result[] {
  if (entries.at(-1)?.kind !== 'end') throw new Error(`${unfinished(entries)}.\n${output}`);
  return entries.flatMap((entry): Result[] => {
    switch (entry.kind) {
      case 'passed':
        return [{ name: entry.name }];
      case 'failed':
        return [{ name: entry.name, error: entry.error }];
      case 'began':
      case 'end':
        return [];
      default:
        return entry satisfies never;
    }
  });
}

function unfinished(entries: readonly Report[]): string {
  const last = entries.findLast((entry) => entry.kind !== 'end');
  return last && 'name' in last
    ? `The editor did not finish the tests; the last it told of: "${last.name}" ${last.kind}`
    : 'The editor did not begin the tests';
}
