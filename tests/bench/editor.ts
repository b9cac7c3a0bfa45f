import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { createMessageConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-jsonrpc/node';
import type { Peers } from './peers.ts';
import type { Server } from './servers.ts';

/** An editor with one document open, as a language server sees it. */
export interface Editor {
  readonly pid: number;
  /** Opens the document. @returns ms from spawn to diagnostics that show an error, and how many errors there were */
  readonly open: () => Promise<{ readonly first: number; readonly errors: number }>;
  /** Replaces `length` characters of a line. */
  readonly change: (line: number, character: number, length: number, text: string) => void;
  /**
   * Sends a change and waits for diagnostics with as many errors as `wanted` accepts; an older report cannot be taken for
   * them, since each edit changes the number.
   * @returns the number; undefined when they never came
   */
  readonly seen: (wanted: (errors: number) => boolean, send: () => void) => Promise<number | undefined>;
  /** @returns the answer; null when it failed */
  readonly ask: (method: string, line: number, character: number) => Promise<unknown>;
  readonly close: () => void;
}

/** How long diagnostics of one edit are waited for, ms. */
const PATIENCE = 20_000;

/** Starts a server; its own waiting on purpose is taken away. */
export function connect(server: Server, folder: string, file: string, text: string, peers: Peers | undefined): Editor {
  const began = performance.now();
  const child = spawn(process.execPath, server.program, {
    cwd: folder,
    stdio: ['pipe', 'pipe', 'pipe'],
    env:
      peers && server.waits.length > 0
        ? {
            ...process.env,
            NODE_OPTIONS: `--require=${join(peers.folder, 'no-wait.cjs')}`,
            CURETTE_BENCH_NO_WAIT: server.waits.join(','),
          }
        : process.env,
  });
  let said = '';
  child.stderr.on('data', (chunk) => {
    said = (said + chunk).slice(-2000);
  });
  const connection = createMessageConnection(
    new StreamMessageReader(child.stdout),
    new StreamMessageWriter(child.stdin),
  );
  connection.onError(() => undefined);
  const uri = pathToFileURL(file).href;
  const root = pathToFileURL(folder).href;
  let version = 1;
  let waiting: ((errors: number) => void) | undefined;

  connection.onNotification('textDocument/publishDiagnostics', (told: Told) => {
    if (told.uri !== uri || (typeof told.version === 'number' && told.version < version)) return;
    waiting?.(errorsIn(told.diagnostics));
  });
  connection.onRequest('workspace/configuration', ({ items }: { items: { section?: string }[] }) =>
    items.map(({ section }) => setting(server.settings, section)),
  );
  connection.onRequest('workspace/workspaceFolders', () => [{ uri: root, name: 'bench' }]);
  // Registrations, progress, refreshes.
  connection.onRequest(() => null);
  connection.listen();

  const told = (wanted: (errors: number) => boolean): Promise<number | undefined> =>
    new Promise((done) => {
      const end = (errors: number | undefined) => {
        clearTimeout(timer);
        waiting = undefined;
        done(errors);
      };
      const timer = setTimeout(end, PATIENCE, undefined);
      waiting = (errors) => {
        if (wanted(errors)) end(errors);
      };
    });
  const asked = async (wanted: (errors: number) => boolean): Promise<number | undefined> => {
    const answer: { items?: Diagnostics } = await connection.sendRequest('textDocument/diagnostic', {
      textDocument: { uri },
    });
    const errors = errorsIn(answer.items ?? []);
    return wanted(errors) ? errors : undefined;
  };
  const seen: Editor['seen'] = (wanted, send) => {
    if (server.asked) {
      send();
      return asked(wanted);
    }
    const came = told(wanted);
    send();
    return came;
  };

  return {
    pid: child.pid ?? 0,
    seen,
    open: async () => {
      await connection.sendRequest('initialize', {
        processId: process.pid,
        rootUri: root,
        workspaceFolders: [{ uri: root, name: 'bench' }],
        initializationOptions: server.initializationOptions,
        capabilities: {
          workspace: {
            configuration: true,
            workspaceFolders: true,
            didChangeConfiguration: { dynamicRegistration: true },
          },
          textDocument: {
            synchronization: {},
            publishDiagnostics: { versionSupport: true },
            hover: { contentFormat: ['markdown', 'plaintext'] },
            completion: { completionItem: { snippetSupport: true } },
            ...(server.asked ? { diagnostic: { dynamicRegistration: true } } : {}),
          },
        },
      });
      send('initialized', {});
      if (server.settings) send('workspace/didChangeConfiguration', { settings: server.settings });
      const errors = await seen(
        (found) => found > 0,
        () => send('textDocument/didOpen', { textDocument: { uri, languageId: server.languageId, version, text } }),
      );
      if (errors === undefined) throw new Error(`no first diagnostics. ${said}`);
      return { first: performance.now() - began, errors };
    },
    change: (line, character, length, text) => {
      version++;
      const range = { start: { line, character }, end: { line, character: character + length } };
      send('textDocument/didChange', { textDocument: { uri, version }, contentChanges: [{ range, text }] });
    },
    ask: (method, line, character) =>
      connection.sendRequest(method, { textDocument: { uri }, position: { line, character } }).catch(() => null),
    close: () => {
      connection.dispose();
      child.kill('SIGKILL');
    },
  };

  function send(method: string, parameters: unknown): void {
    void connection.sendNotification(method, parameters);
  }
}

type Diagnostics = readonly { readonly severity?: number }[];

interface Told {
  readonly uri: string;
  readonly version?: number;
  readonly diagnostics: Diagnostics;
}

/** Errors and warnings; what has no severity is an error. */
function errorsIn(diagnostics: Diagnostics): number {
  return diagnostics.filter(({ severity }) => (severity ?? 1) <= 2).length;
}

function setting(settings: unknown, section: string | undefined): unknown {
  let value = settings;
  for (const name of section?.split('.') ?? []) {
    if (typeof value !== 'object' || value === null) return null;
    value = (value as Readonly<Record<string, unknown>>)[name];
  }
  return value ?? null;
}
