import { execFile, spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { promisify } from 'node:util';
import { type Browser, chromium as browserType, type Page } from 'playwright-core';
import { chromium } from '../scripts/setup.mjs';
import { hostFolder } from './install.ts';

/** A running VS Code whose window is a page of a browser. */
export interface LiveEditor {
  /** What the server and its extension host have printed so far. */
  readonly output: () => string;
  /** The folder of installed extensions; there is none before one is installed. */
  readonly installed: string;
  /**
   * Opens a window on a folder, with the extension in it.
   * @param also `file`: path of a file to open in it. `tests`: path of a module whose `run()` the extension host calls,
   * as test-electron would; where a packaged extension is tried, its folder has to have a manifest.
   */
  readonly open: (
    folder: string,
    also?: { file?: string; tests?: string; in?: 'machine' | 'browser' },
  ) => Promise<Page>;
  readonly close: () => Promise<void>;
}

/**
 * Starts VS Code's server and a Chromium, both killed by `close`, and at the latest when this process ends.
 * @param extension folder of the built extension, or a packaged one (`.vsix`), which is installed as anybody would
 * @param env further environment of the extension host
 * @param trust `asked`: folders are restricted until somebody trusts them
 */
export async function startEditor(
  extension: string,
  env: Record<string, string> = {},
  trust: 'given' | 'asked' = 'given',
): Promise<LiveEditor> {
  const executablePath = chromium();
  if (executablePath === undefined) {
    throw new Error(
      'There is no Chromium to draw the editor. On Debian: apt-get install chromium. Elsewhere set CURETTE_CHROMIUM to one.',
    );
  }
  const data = mkdtempSync(join(tmpdir(), 'curette-editor-'));
  let server: Server | undefined;
  let browser: Browser | undefined;
  const close = async () => {
    await browser?.close().catch(() => undefined);
    server?.kill();
    rmSync(data, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  };
  try {
    const folder = await hostFolder();
    const packaged = extension.endsWith('.vsix');
    if (packaged) await install(folder, data, extension);
    const running = await startServer(folder, data, env, trust);
    server = running;
    browser = await browserType.launch({ executablePath, args: [...chromiumArguments] });
    const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
    const open: LiveEditor['open'] = async (folder, { file, tests } = {}) => {
      // Tests run only with an extension under development: beside a packaged one, the folder that they are in.
      const development = packaged ? tests && dirname(tests) : extension;
      const remote = (path: string) => `vscode-remote://localhost:${running.port}${path}`;
      const payload = [
        ...(development === undefined ? [] : [['extensionDevelopmentPath', remote(development)]]),
        ...(file === undefined ? [] : [['openFile', remote(file)]]),
        ...(tests === undefined ? [] : [['extensionTestsPath', remote(tests)]]),
      ];
      const page = await context.newPage();
      const query = new URLSearchParams({ folder, payload: JSON.stringify(payload) });
      await page.goto(`http://localhost:${running.port}/?${query}`);
      return page;
    };
    return { open, close, output: running.output, installed: extensionsIn(data) };
  } catch (error) {
    await close();
    throw error;
  }
}

const chromiumArguments = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
] as const;

interface Server {
  readonly port: number;
  readonly output: () => string;
  readonly kill: () => void;
}

const startDeadline = 60_000;

function extensionsIn(data: string): string {
  return join(data, 'extensions');
}

function foldersIn(data: string): string[] {
  return ['--user-data-dir', data, '--server-data-dir', data, '--extensions-dir', extensionsIn(data)];
}

/** Installs a packaged extension, as the editor's own command does. @throws with what it said, when it did not */
async function install(folder: string, data: string, file: string): Promise<void> {
  const args = ['--accept-server-license-terms', '--install-extension', file, ...foldersIn(data)];
  const { stdout, stderr } = await promisify(execFile)(
    process.execPath,
    [join(folder, 'out/server-main.js'), ...args],
    { cwd: data, env: { ...process.env, NODE_OPTIONS: '' }, timeout: startDeadline },
  );
  if (!/successfully installed/.test(stdout)) throw new Error(`${file} was not installed:\n${stdout}${stderr}`);
}

function startServer(
  folder: string,
  data: string,
  env: Record<string, string>,
  trust: 'given' | 'asked',
): Promise<Server> {
  for (const name of ['User', 'Machine']) {
    mkdirSync(join(data, name), { recursive: true });
    writeFileSync(join(data, name, 'settings.json'), JSON.stringify(settingsWith(trust)));
  }
  const args = ['--host', '127.0.0.1', '--port', '0', '--without-connection-token', '--accept-server-license-terms'];
  const child = spawn(process.execPath, [join(folder, 'out/server-main.js'), ...args, ...foldersIn(data)], {
    cwd: data,
    env: { ...process.env, NODE_OPTIONS: '', ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
    // A group of its own, so that its extension hosts and language servers end with it.
    detached: true,
  });
  let text = '';
  const kill = () => {
    process.off('exit', kill);
    try {
      if (child.pid !== undefined) process.kill(-child.pid, 'SIGKILL');
    } catch {
      // It has ended already.
    }
  };
  process.on('exit', kill);
  return new Promise((resolve, reject) => {
    const fail = (why: string) => {
      clearTimeout(timer);
      kill();
      reject(new Error(`VS Code's server ${why}. It said:\n${text}`));
    };
    const timer = setTimeout(() => fail('did not start within a minute'), startDeadline);
    child.on('error', (error) => fail(`could not be started: ${error.message}`));
    child.on('exit', (status, signal) => fail(`ended with ${signal ?? `status ${status}`}`));
    const listen = (chunk: Buffer) => {
      text += chunk;
      const port = /listening on (\d+)/.exec(text)?.[1];
      if (port === undefined) return;
      clearTimeout(timer);
      resolve({ port: Number(port), output: () => text, kill });
    };
    child.stdout.on('data', listen);
    child.stderr.on('data', listen);
  });
}

const settingsWith = (trust: 'given' | 'asked') => ({
  'security.workspace.trust.enabled': trust === 'asked',
  'security.workspace.trust.startupPrompt': 'never',
  'telemetry.telemetryLevel': 'off',
  'workbench.startupEditor': 'none',
  'workbench.tips.enabled': false,
  'extensions.autoUpdate': false,
  'extensions.autoCheckUpdates': false,
  'update.mode': 'none',
});
