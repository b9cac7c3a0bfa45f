import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { build } from 'esbuild';
import { asModule, shipped } from '../scripts/build.mjs';

export const root = join(import.meta.dirname, '../..');

export interface Ended {
  readonly status: number | null;
  readonly out: string;
  readonly error: string;
}

export interface Command {
  /** runs `curette` to its end, into pipes */
  readonly run: (args: readonly string[], options?: { cwd?: string; env?: NodeJS.ProcessEnv }) => Promise<Ended>;
  readonly bundle: string;
  readonly remove: () => void;
}

/** The command bundled as it is shipped, in a place of its own. */
export async function bundled(): Promise<Command> {
  const folder = mkdtempSync(join(root, 'tests/dist/cli-'));
  const bundle = join(folder, 'curette.mjs');
  await build({ ...shipped, ...asModule, entryPoints: [join(root, 'server/src/cli/main.ts')], outfile: bundle });
  return {
    bundle,
    remove: () => rmSync(folder, { recursive: true, force: true }),
    run: (args, options = {}) =>
      new Promise((resolve, reject) => {
        const { NO_COLOR: _, FORCE_COLOR: __, ...env } = process.env;
        const child = spawn(process.execPath, [bundle, ...args], {
          cwd: options.cwd ?? root,
          env: { ...env, ...options.env },
          stdio: ['ignore', 'pipe', 'pipe'],
        });
        const chunks: { out: Buffer[]; error: Buffer[] } = { out: [], error: [] };
        child.stdout.on('data', (chunk: Buffer) => chunks.out.push(chunk));
        child.stderr.on('data', (chunk: Buffer) => chunks.error.push(chunk));
        child.on('error', reject);
        child.on('close', (status) =>
          resolve({ status, out: Buffer.concat(chunks.out).toString(), error: Buffer.concat(chunks.error).toString() }),
        );
      }),
  };
}

/** A folder of its own with these files; removed by the second thing it answers. */
export function folderWith(files: Readonly<Record<string, string | Uint8Array>>): [folder: string, remove: () => void] {
  const folder = mkdtempSync(join(tmpdir(), 'curette-test-'));
  for (const [path, content] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), content);
  }
  return [folder, () => rmSync(folder, { recursive: true, force: true })];
}
