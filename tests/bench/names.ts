import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { createMessageConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-jsonrpc/node';
import { anchor, protocolOf, slip } from './document.ts';
import { calibrate, figure, median, quantile, table } from './figures.ts';
import { ours } from './servers.ts';

/**
 * Questions about names in a workspace of very many files: a file of the house that they all bring in, and something in it that few of them
 * name. Beside the answers what a keystroke costs before and after all of them are known.
 */
export async function namesInManyFiles({ quick }: { readonly quick: boolean }): Promise<string> {
  const count = quick ? 200 : 2000;
  const runs = quick ? 5 : 15;
  const folder = mkdtempSync(join(tmpdir(), 'curette-bench-names-'));
  const files = filesOf(count);
  for (const [path, text] of files) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  calibrate();
  const editor = await open(folder);
  const rows: string[][] = [];
  try {
    const uri = (path: string) => pathToFileURL(join(folder, path)).href;
    const textOf = (path: string) => files.get(path) ?? '';
    const at = (path: string, words: string) => ({
      textDocument: { uri: uri(path) },
      position: placeOf(textOf(path), words),
    });
    for (const path of [POLICY, FIRST])
      editor.tell('textDocument/didOpen', {
        textDocument: { uri: uri(path), languageId: 'curette', version: 1, text: textOf(path) },
      });
    const keys = () => keystrokes(editor, uri(FIRST), textOf(FIRST), quick ? 20 : 60);
    const before = await keys();
    const ask = async (what: string, method: string, params: () => object, times = runs) => {
      const taken: number[] = [];
      let size = 0;
      for (let i = 0; i < times; i++) {
        const began = performance.now();
        size = sizeOf(await editor.ask(method, params()));
        taken.push(performance.now() - began);
      }
      rows.push([what, `${size}`, figure(median(taken)), figure(quantile(taken, 0.95))]);
    };
    const context = { includeDeclaration: true };
    await ask('all files are read: the first question', 'workspace/symbol', () => ({ query: 'house' }), 1);
    await ask('symbols', 'workspace/symbol', () => ({ query: 'hsclean' }));
    await ask('references, a thing of one protocol', 'textDocument/references', () => ({
      ...at(FIRST, 'numbing :'),
      context,
    }));
    await ask(
      'references, an entry that a hundredth of the files name, the first time',
      'textDocument/references',
      () => ({ ...at(POLICY, 'house_rinse'), context }),
      1,
    );
    await ask('references, the same again', 'textDocument/references', () => ({
      ...at(POLICY, 'house_rinse'),
      context,
    }));
    await ask(
      'references, a verb that every file names, the first time',
      'textDocument/references',
      () => ({ ...at(POLICY, 'house_clean'), context }),
      1,
    );
    await ask('references, the same again', 'textDocument/references', () => ({
      ...at(POLICY, 'house_clean'),
      context,
    }));
    await ask('rename, a thing of one protocol', 'textDocument/rename', () => ({
      ...at(FIRST, 'numbing :'),
      newName: 'dulling',
    }));
    await ask('rename, the entry', 'textDocument/rename', () => ({
      ...at(POLICY, 'house_rinse'),
      newName: 'our_rinse',
    }));
    await ask(
      'rename, the verb in every file',
      'textDocument/rename',
      () => ({ ...at(POLICY, 'house_clean'), newName: 'our_clean' }),
      Math.min(runs, 3),
    );
    const after = await keys();
    const moved = { files: [{ oldUri: uri(POLICY), newUri: uri('house/policy.curette') }] };
    await ask('the file that all bring in moves', 'workspace/willRenameFiles', () => moved);
    rows.push([
      'keystroke → problems, before any question',
      '',
      figure(median(before)),
      figure(quantile(before, 0.95)),
    ]);
    rows.push(['keystroke → problems, all files known', '', figure(median(after)), figure(quantile(after, 0.95))]);
  } finally {
    editor.end();
    rmSync(folder, { recursive: true, force: true });
  }
  calibrate();
  return `${count} files of ${files.get(FIRST)?.split('\n').length} lines; ms\n\n${table(['question', 'places', 'p50', 'p95'], rows)}`;
}

const POLICY = 'policy.curette';
const FIRST = 'protocols/00/p0.curette';

const HOUSE = `use std/oral
use std/perioperative
use std/wound

irrigant house_rinse "Rinse of the house"
procedure house_clean "Clean as the house does" (socket s) with (spoon_curette) {
  debride s with spoon_curette takes 1..2 min
}
`;

function filesOf(count: number): Map<string, string> {
  const files = new Map([[POLICY, HOUSE]]);
  const { lines } = protocolOf(60, ['../../policy']);
  for (let i = 0; i < count; i++) {
    const text = lines
      .join('\n')
      .replace('protocol long_run', `protocol long_run_${i}`)
      .replace('    pause sign_out', '    house_clean socket with spoon_curette\n    pause sign_out')
      .replace(
        '    bite    : folded_gauze',
        `    bite    : folded_gauze${i % 100 === 0 ? '\n    ours    : house_rinse 5 mL' : ''}`,
      );
    files.set(`protocols/${String(i % 50).padStart(2, '0')}/p${i}.curette`, `${text}\n`);
  }
  return files;
}

interface Editor {
  readonly ask: (method: string, params: object) => Promise<unknown>;
  readonly tell: (method: string, params: object) => void;
  /** the next problems told of a version */
  readonly told: (uri: string, version: number) => Promise<void>;
  readonly end: () => void;
}

async function open(folder: string): Promise<Editor> {
  const child = spawn(process.execPath, ours('Curette', undefined).program, {
    cwd: folder,
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const connection = createMessageConnection(
    new StreamMessageReader(child.stdout),
    new StreamMessageWriter(child.stdin),
  );
  const waiting = new Map<string, () => void>();
  connection.onNotification(
    'textDocument/publishDiagnostics',
    ({ uri, version }: { uri: string; version?: number }) => {
      waiting.get(`${uri} ${version}`)?.();
    },
  );
  connection.onRequest(() => null);
  connection.listen();
  const uri = pathToFileURL(folder).href;
  await connection.sendRequest('initialize', {
    processId: process.pid,
    rootUri: uri,
    workspaceFolders: [{ uri, name: 'many' }],
    capabilities: {
      workspace: { workspaceEdit: { documentChanges: true } },
      textDocument: { publishDiagnostics: { versionSupport: true } },
    },
    initializationOptions: { checkWorkspace: false },
  });
  await connection.sendNotification('initialized', {});
  return {
    ask: (method, params) => connection.sendRequest(method, params),
    tell: (method, params) => void connection.sendNotification(method, params),
    told: (address, version) => new Promise((done) => waiting.set(`${address} ${version}`, done)),
    end: () => {
      connection.dispose();
      child.kill();
    },
  };
}

let version = 1;

/** A letter typed and taken away again, many times; ms to the problems of each version. */
async function keystrokes(editor: Editor, uri: string, text: string, count: number): Promise<number[]> {
  const place = placeOf(text, anchor);
  const start = { line: place.line, character: place.character + anchor.length };
  const end = { line: start.line, character: start.character + slip.length };
  const taken: number[] = [];
  for (let i = 0; i < count; i++) {
    version += 1;
    const told = editor.told(uri, version);
    const began = performance.now();
    const change = i % 2 === 0 ? { range: { start, end: start }, text: slip } : { range: { start, end }, text: '' };
    editor.tell('textDocument/didChange', { textDocument: { uri, version }, contentChanges: [change] });
    await told;
    taken.push(performance.now() - began);
  }
  return taken;
}

function placeOf(text: string, words: string): { readonly line: number; readonly character: number } {
  const before = text.slice(0, text.indexOf(words)).split('\n');
  return { line: before.length - 1, character: before.at(-1)?.length ?? 0 };
}

/** How many places an answer has. */
function sizeOf(answer: unknown): number {
  if (Array.isArray(answer)) return answer.length;
  if (typeof answer !== 'object' || answer === null || !('documentChanges' in answer)) return 0;
  const changes = answer.documentChanges as readonly { readonly edits: readonly unknown[] }[];
  return changes.reduce((sum, { edits }) => sum + edits.length, 0);
}
