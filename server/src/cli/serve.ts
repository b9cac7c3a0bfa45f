import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { UsageError } from './output.ts';

/**
 * Runs the language server, which is built as a file of its own beside the command: the other commands start without it.
 * It ends the process itself, when the editor says so or goes.
 */
export function serve(): number {
  const server = new URL('./language-server.cjs', import.meta.url);
  if (!existsSync(server)) throw new UsageError('The language server is not built. Run "npm run build" first.');
  createRequire(import.meta.url)(fileURLToPath(server));
  return 0;
}
