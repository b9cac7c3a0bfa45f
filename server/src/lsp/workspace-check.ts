import { sha256 } from '@noble/hashes/sha2';
import { bytesToHex } from '@noble/hashes/utils';
import type {
  CancellationToken,
  Diagnostic as LspDiagnostic,
  WorkDoneProgressReporter,
  WorkDoneProgressServerReporter,
} from 'vscode-languageserver';
import type { FileFacts } from '../analysis/analysis.ts';
import type { FileScope } from '../analysis/names/file-scope.ts';
import { isSettings, SETTINGS_NAME, settingsFileOf } from '../analysis/settings.ts';
import { ENDING, isLibrary, resolveUse } from '../analysis/use-path.ts';
import type { FileId } from '../problems/problem.ts';
import { diagnosticsOf } from './diagnostics.ts';
import type { Session } from './session.ts';
import { nextTurn } from './slices.ts';
import { isAnsweringFromFiles } from './whole-workspace.ts';

/** Takes the problems of a file; the version of one that is open, otherwise null. */
export type TakeProblems = (uri: string, version: number | null, list: readonly LspDiagnostic[]) => void;

/**
 * Looks at the files of the workspace that are not open. An editor that is told of problems is told of theirs too, as they are found; for one
 * that asks they are found when it does. Work goes on file by file, and not while somebody types.
 */
export interface WorkspaceCheck {
  /** looks at every file, from now on or anew; `only open`: tells nothing more of files that are not */
  readonly cover: (what: 'workspace' | 'only open') => void;
  /** something is being typed */
  readonly typed: () => void;
  /** problems of an open document were told anew */
  readonly changed: (uri: string, facts: FileFacts | undefined) => void;
  /** tells what is wrong in the settings that count for what is open, whatever else is looked at: they are open in no editor of ours */
  readonly tellSettings: () => void;
  readonly opened: (uri: string) => void;
  readonly closed: (uri: string) => void;
  /** files on disk came, changed or went */
  readonly touched: (uris: readonly string[]) => void;
  /** the problems of every file there is, open ones included; stops where it is when it is taken back */
  readonly all: (token: CancellationToken, progress: WorkDoneProgressReporter, take: TakeProblems) => Promise<void>;
}

/** How long nothing must have been typed before a further file is looked at, ms. */
const REST = 300;

/** The reading of so many files is shown as it goes on. */
const MANY = 20;

/** What was found in a file that is not open. */
interface Looked {
  /** of its text */
  readonly fingerprint: string;
  readonly list: readonly LspDiagnostic[];
  /** files that it hangs on, there or not */
  readonly reaches: ReadonlySet<FileId>;
  /** what those that it uses declared when it was looked at */
  readonly scopes: ReadonlyMap<FileId, FileScope>;
  /** it has cases, which hang on more of another file than what that declares */
  readonly hasCases: boolean;
}

/** @param folders addresses of the folders that are worked in */
export function createWorkspaceCheck(session: Session, folders: () => readonly string[]): WorkspaceCheck {
  const { connection, workspace, guard, client } = session;
  const looked = new Map<FileId, Looked>();
  const users = new Map<FileId, Set<FileId>>();
  const told = new Map<string, string>();
  const versions = new Map<string, { readonly version: number; readonly facts: FileFacts | undefined }>();
  const queue = new Set<FileId>();
  let settingsTold: ReadonlySet<FileId> = new Set();
  let covers: 'workspace' | 'only open' = 'only open';
  /** counts how often everything was begun anew */
  let beginning = 0;
  let running = false;
  let lastTyped = Number.NEGATIVE_INFINITY;
  let refreshing = false;

  const forget = (id: FileId) => {
    for (const other of looked.get(id)?.reaches ?? []) users.get(other)?.delete(id);
    looked.delete(id);
  };
  const keep = (id: FileId, now: Looked) => {
    forget(id);
    looked.set(id, now);
    for (const other of now.reaches) users.set(other, (users.get(other) ?? new Set()).add(id));
  };

  /** What was found may be otherwise now. */
  const again = (ids: Iterable<FileId>) => {
    for (const id of ids) {
      if (client.push) queue.add(id);
      else forget(id);
    }
    if (client.push) guard.send('the workspace', run());
    else refresh();
  };

  const refresh = () => {
    if (!client.diagnosticRefresh || refreshing) return;
    refreshing = true;
    setTimeout(() => {
      refreshing = false;
      guard.send('a refresh of problems', connection.languages.diagnostics.refresh());
    }, REST);
  };

  const tell = (id: FileId, list: readonly LspDiagnostic[]) => {
    const uri = session.uriOf(id);
    if (uri === undefined || session.document(uri)) return;
    const words = JSON.stringify(list);
    if (words === (told.get(uri) ?? '[]')) return;
    if (list.length > 0) told.set(uri, words);
    else told.delete(uri);
    guard.send('diagnostics', connection.sendDiagnostics({ uri, diagnostics: [...list] }));
  };

  const run = async (progress?: WorkDoneProgressServerReporter): Promise<void> => {
    if (running || covers === 'only open') return;
    running = true;
    const many = queue.size;
    try {
      for (;;) {
        await atRest();
        const [id] = queue;
        if (id === undefined || progress?.token.isCancellationRequested) break;
        queue.delete(id);
        const found = await look(id);
        // Meanwhile somebody may have said that nothing of it is to be told.
        if (covers === 'workspace') tell(id, found?.list ?? []);
        if (progress && many > 0) progress.report(Math.min(99, Math.floor((100 * (many - queue.size)) / many)));
      }
      queue.clear();
    } finally {
      running = false;
      progress?.done();
    }
  };

  /** Until nothing is typed, and what has come meanwhile is taken up. */
  const atRest = async () => {
    for (;;) {
      await nextTurn();
      const left = REST - (performance.now() - lastTyped);
      if (left <= 0) return;
      await new Promise((done) => setTimeout(done, left));
    }
  };

  /** Looks at a file that is not open; undefined when there is none, or it is open. Others get their turn between its steps. */
  const look = async (id: FileId): Promise<Looked | undefined> => {
    const steps = examine(id);
    for (;;) {
      const step = guard.run(`looking at ${id}`, () => steps.next(), undefined);
      if (!step) return undefined;
      if (step.done) return step.value;
      await nextTurn();
    }
  };

  function* examine(id: FileId): Generator<void, Looked | undefined> {
    if (workspace.openIds().includes(id)) return undefined;
    const file = workspace.snapshot().file(id);
    if (!file) {
      forget(id);
      return undefined;
    }
    yield;
    for (const item of file.tree.body.items) {
      if (item.type !== 'use' || !item.path) continue;
      const target = resolveUse(id, item.path.text);
      if (!target.ok) continue;
      // What others use as well is kept; this file is looked at as an experiment, of which nothing is.
      workspace.modules().module(target.id);
      yield;
    }
    const facts = isSettings(id) ? workspace.facts(id) : (workspace.tryOut(id, []) ?? workspace.facts(id));
    if (!facts) return undefined;
    const own = { ...workspace, facts: (other: FileId) => (other === id ? facts : workspace.facts(other)) };
    const now: Looked = {
      fingerprint: fingerprintOf(facts.file.text),
      list: diagnosticsOf(session, own, id),
      reaches: reachOf(facts),
      scopes: new Map(facts.module?.closure.map((scope) => [scope.id, scope])),
      hasCases: facts.cases.length > 0,
    };
    keep(id, now);
    if (!isUsed(id) && !isAnsweringFromFiles(session)) workspace.refresh(id);
    return now;
  }

  /** What was found in a file, unless it or what it hangs on is another by now: not everything that changes is told at once. */
  const keptOf = (id: FileId): Looked | undefined => {
    const found = looked.get(id);
    if (!found) return undefined;
    const text = workspace.look(id)?.text;
    if (text === undefined || fingerprintOf(text) !== found.fingerprint) return undefined;
    for (const [other, scope] of found.scopes)
      if (other !== id && workspace.modules().module(other)?.scope !== scope) return undefined;
    const hangsOnOpen = found.hasCases && [...session.open()].some((open) => found.reaches.has(open.id));
    return hangsOnOpen ? undefined : found;
  };

  const isUsed = (id: FileId): boolean => {
    if ((users.get(id)?.size ?? 0) > 0) return true;
    for (const open of session.open())
      if (workspace.facts(open.id)?.module?.closure.some((scope) => scope.id === id)) return true;
    return isSettings(id);
  };

  const files = async (): Promise<FileId[]> => {
    const ids = new Set<FileId>();
    for (const folder of folders()) {
      const root = session.kept.pathOf(folder);
      if (root === undefined) continue;
      const start = root.endsWith('/') ? root : `${root}/`;
      for await (const path of session.kept.walk(root, (name) => name.endsWith(ENDING) || name === SETTINGS_NAME))
        ids.add(session.idOf(session.kept.uriOf(start + path)));
    }
    return [...ids];
  };

  const begin = async (turn: number) => {
    const ids = await files();
    if (turn !== beginning) return;
    for (const id of ids) queue.add(id);
    if (running || queue.size === 0) return;
    const progress =
      client.progress && queue.size >= MANY ? await connection.window.createWorkDoneProgress() : undefined;
    progress?.begin('Checking protocols', 0, `${queue.size} files`, true);
    await run(progress);
  };

  return {
    cover: (what) => {
      covers = what;
      beginning += 1;
      queue.clear();
      for (const id of [...looked.keys()]) forget(id);
      for (const uri of told.keys())
        if (!session.document(uri)) guard.send('diagnostics', connection.sendDiagnostics({ uri, diagnostics: [] }));
      told.clear();
      if (!client.push) refresh();
      else if (what === 'workspace') guard.send('the workspace', begin(beginning));
    },
    typed: () => {
      lastTyped = performance.now();
    },
    changed: (uri, facts) => {
      const document = session.document(uri);
      const version = document?.lines.version ?? 0;
      const before = versions.get(uri);
      versions.set(uri, { version, facts });
      if (!client.push && before?.version === version && before.facts !== facts) refresh();
      const scope = facts?.module?.scope;
      const id = document?.id;
      const using = id === undefined ? undefined : users.get(id);
      if (id === undefined || !scope || !using || using.size === 0) return;
      // Some of them may have been looked at since it changed, and others not.
      const stale = [...using].filter((other) => {
        const found = looked.get(other);
        return found?.scopes.get(id) !== scope || found.hasCases;
      });
      again(stale);
    },
    tellSettings: () => {
      if (!client.push) return;
      const now = new Set<FileId>();
      for (const { id } of session.open()) {
        const settings = settingsFileOf(workspace.snapshot(), id)?.id;
        if (settings !== undefined) now.add(settings);
      }
      for (const id of now) tell(id, diagnosticsOf(session, workspace, id));
      if (covers === 'only open') for (const id of settingsTold) if (!now.has(id)) tell(id, []);
      settingsTold = now;
    },
    opened: (uri) => {
      told.delete(uri);
      forget(session.idOf(uri));
    },
    closed: (uri) => {
      told.delete(uri);
      versions.delete(uri);
      const id = session.idOf(uri);
      if (isLibrary(id)) return;
      again([id, ...(users.get(id) ?? [])]);
    },
    touched: (uris) => {
      const ids = uris.map((uri) => session.idOf(uri));
      // Settings count for every file below them.
      if (ids.some(isSettings)) again([...ids, ...looked.keys()]);
      else again([...ids, ...ids.flatMap((id) => [...(users.get(id) ?? [])])]);
    },
    all: async (token, progress, take) => {
      const open = [...session.open()].filter(({ id }) => !isLibrary(id));
      for (const { uri, id, lines } of open) take(uri, lines.version, diagnosticsOf(session, workspace, id));
      const settings = open.flatMap(({ id }) => settingsFileOf(workspace.snapshot(), id)?.id ?? []);
      const ids = covers === 'workspace' ? await files() : [];
      const rest = [...new Set([...settings, ...ids])].filter((id) => !open.some((other) => other.id === id));
      const many = rest.filter((id) => !looked.has(id)).length >= MANY;
      if (many) progress.begin('Checking protocols', 0, `${rest.length} files`, true);
      for (const [i, id] of rest.entries()) {
        const kept = keptOf(id);
        if (!kept) await atRest();
        if (token.isCancellationRequested) break;
        const found = kept ?? (await look(id));
        const uri = session.uriOf(id);
        if (found && uri !== undefined && !session.document(uri)) take(uri, null, found.list);
        if (many) progress.report(Math.floor((100 * (i + 1)) / rest.length));
      }
      if (many) progress.done();
    },
  };
}

function fingerprintOf(text: string): string {
  return bytesToHex(sha256(text));
}

function reachOf({ file, module }: FileFacts): ReadonlySet<FileId> {
  const reaches = new Set<FileId>();
  for (const { id } of module?.closure ?? []) reaches.add(id);
  // A file that is not there yet may come.
  for (const scope of module?.closure ?? [])
    for (const { path } of scope.uses) {
      const target = path && resolveUse(scope.id, path.text);
      if (target?.ok) reaches.add(target.id);
    }
  reaches.delete(file.id);
  for (const id of reaches) if (isLibrary(id)) reaches.delete(id);
  return reaches;
}
