/** The shipped language server, bundled as it ships. */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { inAscii, shipped } from '../scripts/build.mjs';
import { type Server as Program, type Start, capabilities as shown, startProgram } from '../support/server.ts';

export type Server = Program;

export const capabilities = shown;

/** Bundled once a test file, as `npm run build` does it: the server, and what the extension starts it with. */
export const bundles = (async () => {
  const folder = mkdtempSync(join(tmpdir(), 'curette-server-'));
  writeFileSync(join(folder, 'package.json'), '{ "type": "commonjs" }');
  const [server, start] = [join(folder, 'server.js'), join(folder, 'start.js')];
  for (const [name, outfile] of [
    ['main.ts', server],
    ['start.ts', start],
  ] as const) {
    const entry = join(import.meta.dirname, '../../server/src/lsp', name);
    await build({ ...shipped, format: 'cjs', entryPoints: [entry], outfile });
    inAscii(outfile);
  }
  return { server, start };
})();

/**
 * Starts a server on a new folder.
 * @param options.program what Node runs; the server by itself unless said
 */
export async function startServer(options: Start & { readonly program?: readonly string[] } = {}): Promise<Server> {
  return startProgram(options.program ?? [(await bundles).server], options);
}
