/** A language server in a process of its own, spoken to as an editor speaks to it. */
import { type ChildProcessWithoutNullStreams, spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import {
  createMessageConnection,
  type MessageConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-jsonrpc/node';
import type {
  ClientCapabilities,
  Diagnostic,
  InitializeResult,
  PublishDiagnosticsParams,
} from 'vscode-languageserver-protocol';

export interface Server {
  readonly connection: MessageConnection;
  readonly process: ChildProcessWithoutNullStreams;
  readonly initialized: InitializeResult;
  /** address of a file in the workspace */
  readonly uri: (path: string) => string;
  /** writes a file of the workspace to disk, or takes it away */
  readonly write: (path: string, text: string | Uint8Array | undefined) => void;
  readonly folder: string;
  readonly open: (uri: string, text: string, version?: number) => void;
  readonly change: (uri: string, version: number, changes: readonly Change[]) => void;
  readonly close: (uri: string) => void;
  /** tells that files on disk have changed */
  readonly touched: (...paths: string[]) => void;
  /** the next report about a document that fits */
  readonly told: (uri: string, fits?: (told: PublishDiagnosticsParams) => boolean) => Promise<readonly Diagnostic[]>;
  /** every report so far, oldest first */
  readonly reports: readonly PublishDiagnosticsParams[];
  /** all that the server wrote to its error output, and to the editor's log */
  readonly said: () => string;
  /** shuts it down in good order; answers its exit code */
  readonly stop: () => Promise<number | null>;
}

export interface Change {
  readonly range?: { readonly start: Position; readonly end: Position };
  readonly text: string;
}

interface Position {
  readonly line: number;
  readonly character: number;
}

export const capabilities: ClientCapabilities = {
  workspace: { workspaceFolders: true, workspaceEdit: { documentChanges: true } },
  textDocument: {
    publishDiagnostics: { versionSupport: true, relatedInformation: true, codeDescriptionSupport: true },
    definition: { linkSupport: true },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
  },
};

/** How long an answer is waited for, ms. */
const PATIENCE = 20_000;

export interface Start {
  readonly files?: Readonly<Record<string, string>>;
  readonly capabilities?: ClientCapabilities;
  readonly initializationOptions?: unknown;
  /** folders of the workspace, below the new one; the new one itself unless said */
  readonly folders?: readonly string[];
}

/**
 * Starts a server on a new folder.
 * @param program what Node runs
 */
export async function startProgram(
  program: readonly string[],
  options: Start = {},
  environment: Readonly<Record<string, string>> = {},
): Promise<Server> {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'curette-lsp-')));
  const write: Server['write'] = (path, text) => {
    const file = join(folder, path);
    if (text === undefined) return rmSync(file);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, text);
  };
  for (const [path, text] of Object.entries(options.files ?? {})) write(path, text);
  const uri = (path: string) => pathToFileURL(join(folder, path)).href;

  const child = spawn(process.execPath, [...program, '--stdio'], {
    stdio: ['pipe', 'pipe', 'pipe'],
    env: { ...process.env, ...environment },
  });
  let said = '';
  child.stderr.on('data', (chunk) => {
    said += chunk;
  });
  const ended = new Promise<number | null>((done) => child.on('exit', done));
  const connection = createMessageConnection(
    new StreamMessageReader(child.stdout),
    new StreamMessageWriter(child.stdin),
  );
  const reports: PublishDiagnosticsParams[] = [];
  const waiting = new Set<() => void>();
  connection.onNotification('textDocument/publishDiagnostics', (told: PublishDiagnosticsParams) => {
    reports.push(told);
    for (const look of waiting) look();
  });
  connection.onNotification('window/logMessage', ({ message }: { message: string }) => {
    said += `${message}\n`;
  });
  connection.onRequest(() => null);
  connection.listen();

  const initialized: InitializeResult = await connection.sendRequest('initialize', {
    processId: process.pid,
    rootUri: null,
    workspaceFolders: (options.folders ?? ['']).map((path) => ({ uri: uri(path), name: path })),
    capabilities: options.capabilities ?? capabilities,
    initializationOptions: options.initializationOptions,
  });
  await connection.sendNotification('initialized', {});

  const send = (method: string, params: unknown) => void connection.sendNotification(method, params);
  return {
    connection,
    process: child,
    initialized,
    uri,
    write,
    folder,
    reports,
    said: () => said,
    open: (address, text, version = 1) =>
      send('textDocument/didOpen', { textDocument: { uri: address, languageId: 'curette', version, text } }),
    change: (address, version, contentChanges) =>
      send('textDocument/didChange', { textDocument: { uri: address, version }, contentChanges }),
    close: (address) => send('textDocument/didClose', { textDocument: { uri: address } }),
    touched: (...paths) =>
      send('workspace/didChangeWatchedFiles', { changes: paths.map((path) => ({ uri: uri(path), type: 2 })) }),
    told: (address, fits = () => true) => {
      const seen = reports.length;
      const find = () => reports.slice(seen).find((told) => told.uri === address && fits(told));
      return new Promise((done, fail) => {
        const look = () => {
          const told = find();
          if (!told) return;
          clearTimeout(timer);
          waiting.delete(look);
          done(told.diagnostics);
        };
        const timer = setTimeout(() => {
          waiting.delete(look);
          fail(new Error(`no such report about ${address}; the server said: ${said}`));
        }, PATIENCE);
        waiting.add(look);
        look();
      });
    },
    stop: async () => {
      await connection.sendRequest('shutdown');
      send('exit', undefined);
      const code = await ended;
      connection.dispose();
      rmSync(folder, { recursive: true, force: true });
      return code;
    },
  };
}
