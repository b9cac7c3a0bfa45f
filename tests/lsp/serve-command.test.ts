import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { asModule, shipped } from '../scripts/build.mjs';
import { bundles, startServer } from './server.ts';

/** `curette serve --stdio`: the command as it is built, for editors of every sort. */
let folder: string;
let program: readonly string[];

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'curette-serve-'));
  const command = join(folder, 'curette.mjs');
  const entry = join(import.meta.dirname, '../../server/src/cli/main.ts');
  await build({ ...shipped, ...asModule, entryPoints: [entry], outfile: command });
  copyFileSync((await bundles).server, join(folder, 'language-server.cjs'));
  program = [command, 'serve'];
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const faulty = 'kind cloth "cloth" is matrial { }\n';

test('an editor that can do next to nothing is told of problems', async () => {
  const asked: string[] = [];
  const server = await startServer({ program, capabilities: {} });
  server.connection.onRequest((method) => {
    asked.push(method);
    return null;
  });
  const uri = server.uri('a.curette');
  const told = server.told(uri);
  server.open(uri, faulty);
  const [problem] = await told;
  expect(problem?.message).toContain('matrial');
  expect(problem?.relatedInformation).toBeUndefined();
  const at = { textDocument: { uri }, position: { line: 0, character: 24 } };
  const completion = await server.connection.sendRequest('textDocument/completion', at);
  // Without snippets declared, none is sent.
  expect(JSON.stringify(completion)).not.toContain('"insertTextFormat":2');
  expect(await server.connection.sendRequest('textDocument/hover', at)).toBeDefined();
  // It has declared no registration, no configuration, no progress and no refresh: it is asked for none of them.
  expect(asked).toEqual([]);
  expect(await server.stop()).toBe(0);
  expect(server.said()).toBe('');
});

test('an editor that only asks is answered, and told nothing', async () => {
  const server = await startServer({ program, capabilities: { textDocument: { diagnostic: {} } } });
  const uri = server.uri('a.curette');
  server.open(uri, faulty);
  const ask = (more: object = {}) =>
    server.connection.sendRequest<{ kind: string; resultId: string; items?: { message: string }[] }>(
      'textDocument/diagnostic',
      { textDocument: { uri }, ...more },
    );
  const report = await ask();
  expect(report.items?.[0]?.message).toContain('matrial');
  expect(await ask({ previousResultId: report.resultId })).toEqual({ kind: 'unchanged', resultId: report.resultId });
  expect(server.reports).toEqual([]);
  expect(await server.stop()).toBe(0);
});

test('it ends when the editor goes without a word', async () => {
  const server = await startServer({ program });
  const ended = new Promise((done) => server.process.on('exit', done));
  server.process.stdin.end();
  await ended;
  expect(server.said()).toBe('');
});
