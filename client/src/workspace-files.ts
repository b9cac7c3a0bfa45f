import type { HeldFile } from '@curette/shared';
import * as vscode from 'vscode';

/** Files of the workspace that the server cannot read by itself: they are read here, and followed. */
export interface WorkspaceFiles extends vscode.Disposable {
  /** Reads them; answers when all are read, or enough time has gone by. What is read later is told of as changed. */
  readonly read: () => Promise<void>;
  /** Those read so far, as they are now. */
  readonly known: () => HeldFile[];
  readonly onChanged: vscode.Event<HeldFile[]>;
}

/** More than this is not read of a workspace: files, entries of folders, folders deep, and letters altogether. */
const MOST = { files: 5000, entries: 50_000, deep: 12, letters: 64 * 1024 * 1024 };

/** A larger file is most likely something else, bytes; the server draws the same line. */
const LARGEST = 8 * 1024 * 1024;

/** The start does not wait longer than this for files from afar, ms. */
const PATIENCE = 5000;

/** So many files are asked for at a time. */
const AT_ONCE = 16;

const WANTED = /(\.curette|^curette\.json)$/;
const PATTERN = '**/{*.curette,curette.json}';

/** @param wanted which addresses are read here */
export function followFiles(wanted: (uri: vscode.Uri) => boolean): WorkspaceFiles {
  const known = new Map<string, HeldFile>();
  const changed = new vscode.EventEmitter<HeldFile[]>();
  let letters = 0;

  const take = (file: HeldFile) => {
    const before = known.get(file.uri);
    letters += lettersIn(file) - lettersIn(before);
    if (file.content.type === 'absent') known.delete(file.uri);
    else known.set(file.uri, file);
  };
  const readAll = async (folders: readonly vscode.Uri[]) => {
    const uris: vscode.Uri[] = [];
    for (const folder of folders) if (wanted(folder)) await collect(folder, uris);
    for (let from = 0; from < uris.length && letters < MOST.letters; from += AT_ONCE) {
      const read = await Promise.all(uris.slice(from, from + AT_ONCE).map(readFile));
      for (const file of read) take(file);
      changed.fire(read);
    }
  };
  const again = async (uri: vscode.Uri) => {
    if (!wanted(uri)) return;
    const file = await readFile(uri);
    if (!known.has(file.uri) && (known.size >= MOST.files || letters >= MOST.letters)) return;
    take(file);
    changed.fire([file]);
  };

  const watcher = vscode.workspace.createFileSystemWatcher(PATTERN);
  const watching = vscode.Disposable.from(
    watcher,
    changed,
    watcher.onDidCreate(again),
    watcher.onDidChange(again),
    watcher.onDidDelete(again),
    vscode.workspace.onDidSaveTextDocument(({ uri }) => {
      // Not every kind of folder tells of its changes.
      if (WANTED.test(nameOf(uri))) void again(uri);
    }),
    vscode.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
      for (const { uri } of removed) {
        const gone = [...known.keys()].filter((file) => file.startsWith(`${uri}/`));
        const files = gone.map((file): HeldFile => ({ uri: file, content: { type: 'absent' } }));
        for (const file of files) take(file);
        if (files.length > 0) changed.fire(files);
      }
      void readAll(added.map(({ uri }) => uri));
    }),
  );
  return {
    read: async () => {
      const folders = (vscode.workspace.workspaceFolders ?? []).map(({ uri }) => uri).filter(wanted);
      if (folders.length === 0) return;
      await Promise.race([readAll(folders), new Promise((done) => setTimeout(done, PATIENCE))]);
    },
    known: () => [...known.values()],
    onChanged: changed.event,
    dispose: () => watching.dispose(),
  };
}

/** Adds the files below a folder, one folder after another; hidden folders and others' packages are left out. */
async function collect(root: vscode.Uri, into: vscode.Uri[]): Promise<void> {
  const folders = [{ uri: root, deep: 0 }];
  let entries = 0;
  for (let folder = folders.shift(); folder; folder = folders.shift()) {
    for (const [name, type] of await entriesOf(folder.uri)) {
      entries += 1;
      if (entries > MOST.entries || into.length >= MOST.files) return;
      const uri = vscode.Uri.joinPath(folder.uri, name);
      if (type === vscode.FileType.File && WANTED.test(name)) into.push(uri);
      else if (type === vscode.FileType.Directory && folder.deep < MOST.deep && !/^\.|^node_modules$/.test(name))
        folders.push({ uri, deep: folder.deep + 1 });
    }
  }
}

async function entriesOf(folder: vscode.Uri): Promise<[string, vscode.FileType][]> {
  try {
    return await vscode.workspace.fs.readDirectory(folder);
  } catch {
    return [];
  }
}

async function readFile(uri: vscode.Uri): Promise<HeldFile> {
  return { uri: uri.toString(), content: await contentOf(uri) };
}

async function contentOf(uri: vscode.Uri): Promise<HeldFile['content']> {
  let bytes: Uint8Array;
  try {
    if ((await vscode.workspace.fs.stat(uri)).size > LARGEST) return { type: 'too large' };
    bytes = await vscode.workspace.fs.readFile(uri);
  } catch (error) {
    const gone = error instanceof vscode.FileSystemError && error.code === 'FileNotFound';
    return { type: gone ? 'absent' : 'unreadable' };
  }
  try {
    return { type: 'text', text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    return { type: 'not text' };
  }
}

function lettersIn(file: HeldFile | undefined): number {
  return file?.content.type === 'text' ? file.content.text.length : 0;
}

function nameOf({ path }: vscode.Uri): string {
  return path.slice(path.lastIndexOf('/') + 1);
}
