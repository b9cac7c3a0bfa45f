import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Browser, chromium as browserType, type Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { chromium } from '../scripts/setup.mjs';
import { extension } from './run.ts';

/** The server as it runs in a browser: the built worker in a Chromium, spoken to by messages. */
let browser: Browser;
let page: Page;
const PAGE = 'http://worker.test/';

beforeAll(async () => {
  const executablePath = chromium();
  if (executablePath === undefined) throw new Error('There is no Chromium. On Debian: apt-get install chromium.');
  browser = await browserType.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });
  page = await browser.newPage();
  const script = readFileSync(join(extension, 'dist/server.web.js'), 'utf8');
  await page.route(`${PAGE}**`, (route) =>
    route.request().url().endsWith('.js')
      ? route.fulfill({ contentType: 'text/javascript', body: script })
      : route.fulfill({ contentType: 'text/html', body: '<!doctype html><title>a worker</title>' }),
  );
  await page.goto(PAGE);
});
afterAll(() => browser?.close());

const kinds = 'kind cloth "cloth" is material { }\n';
const text = 'use kinds\nkind rag "rag" is cloth { }\nkind bag "bag" is clot { }\n';
const root = 'afar://office/notes';

test('it checks, completes and reads the files that the editor has told of', async () => {
  const seen = await page.evaluate(speak, { root, kinds, text });
  expect(seen.troubles).toEqual([]);
  expect(seen.log).toEqual([]);
  expect(seen.problems.map(({ message }) => message).join('\n')).toContain('clot');
  expect(seen.problems.length).toBe(1);
  expect(seen.labels).toContain('cloth');
  expect(seen.hover).toContain('cloth');
  expect(seen.libraryLength).toBeGreaterThan(1000);
});

interface Message {
  readonly id?: number;
  readonly method?: string;
  readonly params?: { uri: string; diagnostics: { message: string }[]; message: string };
  readonly result?: unknown;
}

/** Runs in the page: a small editor. */
async function speak({ root, kinds, text }: { root: string; kinds: string; text: string }) {
  const worker = new Worker('/server.web.js');
  const troubles: string[] = [];
  const log: string[] = [];
  const waiting = new Map<number, (result: unknown) => void>();
  let told: (problems: { message: string }[]) => void = () => undefined;
  const uri = `${root}/main.curette`;
  worker.addEventListener('error', ({ message }) => troubles.push(message));
  worker.addEventListener('message', ({ data }: MessageEvent<Message>) => {
    if (data.id !== undefined && data.method === undefined) waiting.get(data.id)?.(data.result);
    else if (data.id !== undefined) worker.postMessage({ jsonrpc: '2.0', id: data.id, result: null });
    if (data.method === 'window/logMessage') log.push(data.params?.message ?? '');
    if (data.method === 'textDocument/publishDiagnostics' && data.params?.uri === uri) told(data.params.diagnostics);
  });
  let last = 0;
  const send = (method: string, params: unknown) => worker.postMessage({ jsonrpc: '2.0', method, params });
  const ask = (method: string, params: unknown): Promise<unknown> => {
    last += 1;
    const id = last;
    worker.postMessage({ jsonrpc: '2.0', id, method, params });
    return new Promise((done) => waiting.set(id, done));
  };
  await ask('initialize', {
    processId: null,
    rootUri: null,
    workspaceFolders: [{ uri: root, name: 'notes' }],
    capabilities: { textDocument: { publishDiagnostics: {} } },
    initializationOptions: { files: [{ uri: `${root}/kinds.curette`, content: { type: 'text', text: kinds } }] },
  });
  send('initialized', {});
  const problems = await new Promise<{ message: string }[]>((done) => {
    told = done;
    send('textDocument/didOpen', { textDocument: { uri, languageId: 'curette', version: 1, text } });
  });
  const at = { textDocument: { uri }, position: { line: 1, character: 20 } };
  const completion = (await ask('textDocument/completion', at)) as
    | { items?: { label: string }[] }
    | { label: string }[];
  const hover = await ask('textDocument/hover', at);
  const library = (await ask('curette/libraryText', { uri: 'curette-library:/std/oral.curette' })) as { text: string };
  worker.terminate();
  return {
    troubles,
    log,
    problems,
    labels: (Array.isArray(completion) ? completion : (completion.items ?? [])).map(({ label }) => label),
    hover: JSON.stringify(hover),
    libraryLength: library.text.length,
  };
}
