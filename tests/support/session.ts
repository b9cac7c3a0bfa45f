/** A long session of an editor, at random: edits, files that come and go, names that change, and questions about all of it. */
import { existsSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { CancellationTokenSource, ResponseError } from 'vscode-jsonrpc/node';
import type { ClientCapabilities, TextEdit, WorkspaceEdit } from 'vscode-languageserver-protocol';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { capabilities, type Server, startProgram } from './server.ts';

export interface SessionOptions {
  /** what Node runs */
  readonly program: readonly string[];
  readonly files: Readonly<Record<string, string>>;
  readonly steps: number;
  readonly seed: number;
  /** the editor is told of problems, or it asks */
  readonly problems: 'told' | 'asked';
  /** after so many steps the facts are compared with those of a fresh start; at the end they always are */
  readonly compareEvery: number;
}

export interface SessionOutcome {
  /** where a fresh start would have said something else: what, after how many steps, and both answers */
  readonly differences: readonly {
    readonly step: number;
    readonly what: string;
    readonly here: string;
    readonly fresh: string;
  }[];
  /** answers that were no answer and no polite refusal */
  readonly failures: readonly string[];
  /** the server's log and error output */
  readonly said: string;
  /** how often each thing was done */
  readonly done: Readonly<Record<string, number>>;
  /**
   * What the server holds on to with every document closed and the same files on disk, MiB: after all were opened once, each time
   * that facts were compared, and at the end.
   */
  readonly memory: readonly number[];
  readonly exitCode: number | null;
}

/** Refusals that a request may meet: cannot be done, the text has changed, taken back. */
const POLITE = [-32803, -32801, -32800];

/** How long all files of a workspace are waited for, ms. */
const PATIENCE = 20_000;

const AT_A_PLACE = [
  'textDocument/hover',
  'textDocument/completion',
  'textDocument/definition',
  'textDocument/typeDefinition',
  'textDocument/implementation',
  'textDocument/documentHighlight',
  'textDocument/signatureHelp',
  'textDocument/prepareRename',
  'textDocument/prepareCallHierarchy',
  'textDocument/prepareTypeHierarchy',
];
const OF_A_DOCUMENT = [
  'textDocument/documentSymbol',
  'textDocument/semanticTokens/full',
  'textDocument/foldingRange',
  'textDocument/documentLink',
  'textDocument/codeLens',
];
const WORDS = [
  'x',
  ' ',
  '  ',
  '\n',
  '\r\n',
  '{',
  '}',
  '"',
  '3',
  ' min',
  ' because "so"',
  '// aside',
  '..',
  'ü',
  '🦷',
  '(',
  ')',
  '=',
  'wait 5 min\n',
];

/** @returns what became of it; it throws only where the editor's side is at fault */
export async function randomSession(options: SessionOptions): Promise<SessionOutcome> {
  const { program, seed, steps } = options;
  const random = generator(seed);
  const below = (count: number): number => Math.floor(random() * count);
  const pick = <T>(values: readonly T[]): T => values[below(values.length)] as T;
  const scratch = mkdtempSync(join(tmpdir(), 'curette-session-'));
  const memoryFile = join(scratch, 'memory');
  const server = await startProgram(
    program,
    { ...options, capabilities: ability(options.problems) },
    { CURETTE_TEST_MEMORY: memoryFile },
  );
  const { connection } = server;
  const disk = new Map(Object.entries(options.files));
  const open = new Map<string, TextDocument>();
  const coloured = new Map<string, string>();
  const done: Record<string, number> = {};
  const failures: string[] = [];
  const differences: SessionOutcome['differences'][number][] = [];
  const pending = new Set<Promise<unknown>>();
  let names = 0;

  const send = (method: string, params: unknown) => void connection.sendNotification(method, params);
  const pathOf = (uri: string): string =>
    decodeURIComponent(uri.slice(server.uri('').length + (server.uri('').endsWith('/') ? 0 : 1)));
  const count = (what: string) => {
    done[what] = (done[what] ?? 0) + 1;
  };
  const ask = async <T = unknown>(method: string, params: unknown): Promise<T | null> => {
    count(method);
    const source = new CancellationTokenSource();
    const answer = connection.sendRequest<T>(method, params, source.token);
    if (below(12) === 0) source.cancel();
    const caught = answer.catch((error: unknown) => {
      if (!(error instanceof ResponseError && POLITE.includes(error.code))) failures.push(`${method}: ${error}`);
      return null;
    });
    pending.add(caught);
    void caught.finally(() => pending.delete(caught));
    return caught;
  };

  const openFile = (path: string) => {
    const text = disk.get(path);
    if (text === undefined || open.has(path)) return;
    open.set(path, TextDocument.create(server.uri(path), 'curette', 1, text));
    server.open(server.uri(path), text);
  };
  const closeFile = (path: string) => {
    if (!open.delete(path)) return;
    coloured.delete(path);
    server.close(server.uri(path));
  };
  const change = (path: string, edits: readonly TextEdit[]) => {
    const document = open.get(path);
    if (!document) return;
    // One after another, from the last to the first, so that each stands where it says.
    const changes = [...edits]
      .sort((a, b) => document.offsetAt(b.range.start) - document.offsetAt(a.range.start))
      .map(({ range, newText }) => ({ range, text: newText }));
    const version = document.version + 1;
    open.set(path, TextDocument.update(document, changes, version));
    server.change(server.uri(path), version, changes);
  };
  const onDisk = (path: string, text: string | undefined) => {
    const before = disk.get(path);
    if (before === undefined && text === undefined) return;
    if (text === undefined) disk.delete(path);
    else disk.set(path, text);
    server.write(path, text);
    const type = before === undefined ? 1 : text === undefined ? 3 : 2;
    send('workspace/didChangeWatchedFiles', { changes: [{ uri: server.uri(path), type }] });
  };
  const apply = (edit: WorkspaceEdit | null | undefined) => {
    for (const one of edit?.documentChanges ?? [])
      if ('textDocument' in one) applyTo(pathOf(one.textDocument.uri), one.edits as TextEdit[]);
    for (const [uri, edits] of Object.entries(edit?.changes ?? {})) applyTo(pathOf(uri), edits);
  };
  const applyTo = (path: string, edits: readonly TextEdit[]) => {
    if (open.has(path)) return change(path, edits);
    const text = disk.get(path);
    if (text !== undefined) onDisk(path, TextDocument.applyEdits(TextDocument.create('', '', 0, text), [...edits]));
  };
  const offsetIn = (document: TextDocument): number => {
    const text = document.getText();
    const at = below(text.length + 1);
    return /[\uDC00-\uDFFF\n]/.test(text[at] ?? '') && at > 0 ? at - 1 : at;
  };
  const somewhere = (document: TextDocument) => document.positionAt(offsetIn(document));
  const anOpen = (): readonly [string, TextDocument] => {
    if (open.size === 0) openFile(pick([...disk.keys()].filter((path) => path.endsWith('.curette'))));
    return pick([...open]);
  };

  const type = () => {
    const [path, document] = anOpen();
    const start = somewhere(document);
    const text = document.getText();
    const kind = below(10);
    if (kind < 4) change(path, [{ range: { start, end: start }, newText: pick(WORDS) }]);
    else if (kind < 7) {
      const end = document.positionAt(
        Math.min(text.length, document.offsetAt(start) + 1 + below(kind === 6 ? 200 : 3)),
      );
      change(path, [{ range: { start, end }, newText: below(3) === 0 ? pick(WORDS) : '' }]);
    } else if (kind < 8) {
      const from = { line: below(document.lineCount), character: 0 };
      const to = { line: from.line + 1, character: 0 };
      const copy = document.getText({ start: from, end: to });
      change(path, [{ range: { start: from, end: below(2) ? from : to }, newText: copy + copy }]);
    } else if (kind < 9) {
      // As an editor does it on "replace all".
      const word = pick(text.match(/\b[a-z_]{3,}\b/g) ?? ['none']);
      const found = [...text.matchAll(new RegExp(`\\b${word}\\b`, 'g'))].slice(0, 5);
      const edits = found.map(({ index }) => ({
        range: { start: document.positionAt(index), end: document.positionAt(index + word.length) },
        newText: `${word}_${below(3)}`,
      }));
      if (edits.length > 0) change(path, edits);
    } else {
      const version = document.version + 1;
      const whole = options.files[path] ?? disk.get(path) ?? '';
      open.set(path, TextDocument.create(document.uri, 'curette', version, whole));
      server.change(document.uri, version, [{ text: whole }]);
    }
    count('edit');
  };
  const request = async () => {
    const [path, document] = anOpen();
    const textDocument = { uri: document.uri };
    const position = somewhere(document);
    const range = {
      start: position,
      end: document.positionAt(Math.min(document.getText().length, document.offsetAt(position) + below(400))),
    };
    const options = { tabSize: 2, insertSpaces: true };
    switch (below(16)) {
      case 0:
        return ask('textDocument/references', {
          textDocument,
          position,
          context: { includeDeclaration: below(2) === 0 },
        });
      case 1:
        return ask('workspace/symbol', { query: pick(['', 'graft', 'soc', 'wait', 'ü']) });
      case 2: {
        const edits = await ask<TextEdit[]>('textDocument/formatting', { textDocument, options });
        if (open.get(path) === document && edits && below(2) === 0) change(path, edits);
        return edits;
      }
      case 3: {
        const context = { diagnostics: [] };
        const actions = await ask<{ edit?: WorkspaceEdit }[]>('textDocument/codeAction', {
          textDocument,
          range,
          context,
        });
        if (open.get(path) === document && actions?.length && below(2) === 0) apply(pick(actions).edit);
        return actions;
      }
      case 4: {
        const result = await ask<{ resultId?: string }>('textDocument/semanticTokens/full/delta', {
          textDocument,
          previousResultId: coloured.get(path) ?? 'none',
        });
        if (result?.resultId && open.has(path)) coloured.set(path, result.resultId);
        return result;
      }
      case 5:
        return ask('textDocument/selectionRange', { textDocument, positions: [position] });
      case 6:
        return ask('textDocument/semanticTokens/range', { textDocument, range });
      case 7: {
        const hints = await ask<object[]>('textDocument/inlayHint', { textDocument, range });
        if (hints?.length) await ask('inlayHint/resolve', pick(hints));
        return hints;
      }
      case 8: {
        const view = pick(['checklist', 'timeline', 'tray', 'problems']);
        return ask('curette/preview', { uri: document.uri, view, line: position.line + 1 });
      }
      case 9: {
        const protocol = /^protocol (\w+)/m.exec(document.getText())?.[1] ?? 'none';
        return ask('curette/cases', { uri: document.uri, protocol });
      }
      case 10:
        if (asks) return ask('textDocument/diagnostic', { textDocument });
        return ask('textDocument/rangeFormatting', { textDocument, range, options });
      case 11:
        return ask('textDocument/onTypeFormatting', { textDocument, position, ch: pick(['\n', '}']), options });
      case 12:
      case 13:
        return ask(pick(OF_A_DOCUMENT), { textDocument });
      default:
        return ask(pick(AT_A_PLACE), { textDocument, position });
    }
  };
  const asks = options.problems === 'asked';
  const renameName = async () => {
    const [, document] = anOpen();
    await idle();
    const declared = [
      ...document.getText().matchAll(/\b(?:kind|action|material|protocol|visit|case|state) (\w+)|^ {4}(\w+) +: /gm),
    ];
    if (declared.length === 0) return;
    const found = pick(declared);
    const name = found[1] ?? found[2] ?? '';
    const position = document.positionAt(found.index + found[0].indexOf(name));
    names++;
    const newName = `${name.replace(/_n\d+$/, '')}_n${names}`;
    apply(await ask<WorkspaceEdit>('textDocument/rename', { textDocument: { uri: document.uri }, position, newName }));
  };
  const renameFile = async () => {
    await idle();
    const from = pick([...disk.keys()].filter((path) => path.endsWith('.curette')));
    names++;
    const to = `${pick(['', 'protocols/', 'moved/'])}${(from.split('/').at(-1) ?? '').replace(/(_f\d+)?\.curette$/, `_f${names}.curette`)}`;
    const files = [{ oldUri: server.uri(from), newUri: server.uri(to) }];
    apply(await ask<WorkspaceEdit>('workspace/willRenameFiles', { files }));
    const document = open.get(from);
    if (document) closeFile(from);
    const text = disk.get(from) ?? '';
    // The folder that it goes to has to be there.
    server.write(to, text);
    renameSync(join(server.folder, from), join(server.folder, to));
    disk.delete(from);
    disk.set(to, text);
    if (document) {
      open.set(to, TextDocument.create(server.uri(to), 'curette', 1, document.getText()));
      server.open(server.uri(to), document.getText());
    }
    send('workspace/didRenameFiles', { files });
    send('workspace/didChangeWatchedFiles', {
      changes: [
        { uri: server.uri(from), type: 3 },
        { uri: server.uri(to), type: 1 },
      ],
    });
    count('file renamed');
  };
  const changeDisk = () => {
    const paths = [...disk.keys()];
    const path = pick(paths);
    const text = disk.get(path) ?? '';
    const kind = below(6);
    count('file changed on disk');
    if (kind === 0 && paths.length > 6) return onDisk(path, undefined);
    if (kind === 1) {
      const [first, content] = pick(Object.entries(options.files));
      return onDisk(first, content);
    }
    if (kind === 2) return onDisk(path, open.get(path)?.getText() ?? text);
    const lines = text.split('\n');
    const at = below(lines.length);
    lines.splice(
      at,
      1,
      ...pick([[], [lines[at] ?? '', lines[at] ?? ''], [`${lines[at]} x`], ['// aside', lines[at] ?? '']]),
    );
    onDisk(path, lines.join('\n'));
  };
  const idle = async () => {
    while (pending.size > 0) await Promise.all(pending);
  };
  const closeAll = async () => {
    await idle();
    for (const path of [...open.keys()]) closeFile(path);
    await connection.sendRequest('workspace/symbol', { query: 'none' });
    await pause(1500);
  };
  const memory = async (): Promise<number> => {
    rmSync(memoryFile, { force: true });
    server.process.kill('SIGUSR2');
    for (const began = Date.now(); !existsSync(memoryFile); await pause(20))
      if (Date.now() - began > PATIENCE) throw new Error('the server does not say how much it holds');
    return Number(readFileSync(memoryFile, 'utf8')) / 2 ** 20;
  };
  /** Memory with the files of the start, none of them open. */
  const atRest = async (): Promise<number> => {
    for (const path of [...disk.keys()]) if (options.files[path] === undefined) onDisk(path, undefined);
    for (const [path, text] of Object.entries(options.files)) if (disk.get(path) !== text) onDisk(path, text);
    await closeAll();
    return memory();
  };
  const compare = async (step: number) => {
    await idle();
    const fresh = await startProgram(
      program,
      { files: Object.fromEntries(disk), capabilities: ability(options.problems) },
      {},
    );
    for (const [path, document] of open) fresh.open(fresh.uri(path), document.getText());
    for (let began = Date.now(); ; ) {
      const [here, there] = [
        await factsOf(server, [...open.keys()], asks),
        await factsOf(fresh, [...open.keys()], asks),
      ];
      const other = [...new Set([...here.keys(), ...there.keys()])].filter(
        (what) => here.get(what) !== there.get(what),
      );
      // Files that are not open are looked at in pauses: what is told of them comes in its time.
      const waits = !asks && Date.now() - began < PATIENCE && other.every((what) => what.startsWith('told'));
      if (other.length > 0 && waits) {
        await pause(200);
        continue;
      }
      for (const what of other)
        differences.push({ step, what, here: here.get(what) ?? '', fresh: there.get(what) ?? '' });
      if (fresh.said() !== '') failures.push(`a fresh start says: ${fresh.said()}`);
      break;
    }
    await fresh.stop();
  };

  for (const path of disk.keys()) if (path.endsWith('.curette')) openFile(path);
  for (const path of [...open.keys()])
    await ask('textDocument/documentSymbol', { textDocument: { uri: server.uri(path) } });
  await closeAll();
  const held = [await memory()];

  for (let step = 1; step <= steps; step++) {
    const kind = below(100);
    if (kind < 45) type();
    else if (kind < 80) {
      const answer = request();
      pending.add(answer);
      void answer.finally(() => pending.delete(answer));
      if (below(2)) await answer;
    } else if (kind < 86) openFile(pick([...disk.keys()].filter((path) => path.endsWith('.curette'))));
    else if (kind < 89) closeFile(anOpen()[0]);
    else if (kind < 93) changeDisk();
    else if (kind < 96) await renameName();
    else if (kind < 98) await renameFile();
    else if (below(2)) await idle();
    else await pause(below(400));
    if (step % options.compareEvery === 0 && step < steps) {
      await compare(step);
      held.push(await atRest());
    }
  }
  await compare(steps);
  held.push(await atRest());

  const exitCode = await server.stop();
  rmSync(scratch, { recursive: true, force: true });
  return { differences, failures, said: server.said(), done, memory: held, exitCode };
}

/** The files of a folder, by their paths in it. */
export function filesOf(folder: string): Record<string, string> {
  const paths = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((path) =>
    /\.(curette|json)$/.test(path),
  );
  return Object.fromEntries(
    paths.sort().map((path) => [path.replaceAll('\\', '/'), readFileSync(join(folder, path), 'utf8')]),
  );
}

/** What is known of all documents, as text in which the workspace's folder is left out. */
async function factsOf(server: Server, paths: readonly string[], asks: boolean): Promise<Map<string, string>> {
  const facts = new Map<string, string>();
  const keep = (what: string, value: unknown) =>
    facts.set(
      what,
      JSON.stringify(value, (key, part) =>
        /^(version|resultId|data)$/.test(key) && !Array.isArray(part) ? undefined : part,
      ).replaceAll(server.uri('').replace(/\/$/, ''), ''),
    );
  const wanted = [
    'textDocument/documentSymbol',
    'textDocument/semanticTokens/full',
    'textDocument/foldingRange',
    'textDocument/codeLens',
    'textDocument/documentLink',
    ...(asks ? ['textDocument/diagnostic'] : []),
  ];
  for (const path of paths)
    for (const method of wanted)
      keep(
        `${method} ${path}`,
        await server.connection.sendRequest(method, { textDocument: { uri: server.uri(path) } }),
      );
  if (asks) {
    const { items } = await server.connection.sendRequest<{ items: { uri: string }[] }>('workspace/diagnostic', {
      previousResultIds: [],
    });
    for (const item of items) keep(`workspace/diagnostic ${item.uri.slice(server.uri('').length)}`, item);
  } else {
    const told = new Map(server.reports.map(({ uri, diagnostics }) => [uri, diagnostics]));
    for (const [uri, diagnostics] of told)
      if (diagnostics.length > 0) keep(`told ${uri.slice(server.uri('').length)}`, diagnostics);
  }
  return facts;
}

function ability(problems: SessionOptions['problems']): ClientCapabilities {
  return {
    ...capabilities,
    workspace: {
      ...capabilities.workspace,
      ...(problems === 'asked' ? { diagnostics: { refreshSupport: true } } : {}),
    },
    textDocument: {
      ...capabilities.textDocument,
      inlayHint: { resolveSupport: { properties: ['tooltip'] } },
      ...(problems === 'asked' ? { diagnostic: { relatedDocumentSupport: true } } : {}),
    },
  };
}

/** Numbers from 0 up to 1, the same for the same seed (mulberry32, in the public domain). */
function generator(seed: number): () => number {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}
