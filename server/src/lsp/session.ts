import type { ToothNumbering } from '@curette/shared';
import type { ClientCapabilities, Connection, TextDocumentContentChangeEvent } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { ENDING } from '../analysis/use-path.ts';
import type { FileId } from '../problems/problem.ts';
import type { Files } from '../workspace/files.ts';
import { createFilesIndex, type FilesIndex } from '../workspace/files-index.ts';
import { createWorkspace, type Workspace } from '../workspace/workspace.ts';
import { type Addresses, createAddresses } from './addresses.ts';
import { linesOf, type OpenDocument } from './documents.ts';
import type { Guard } from './guard.ts';

/** More files than this in one folder are taken for something else than protocols: of the rest only those that are open are known. */
const MOST_KNOWN = 20_000;

/** What the editor can show. */
export interface Client {
  /** it is told of problems; otherwise it asks */
  readonly push: boolean;
  readonly version: boolean;
  readonly related: boolean;
  /** it can be shown which words a definition was asked for */
  readonly links: boolean;
  /** symbols within symbols */
  readonly outline: boolean;
  /** edits that say which version they are for */
  readonly documentChanges: boolean;
  /** it asks for hints again when it is told that they may read differently, and for lenses */
  readonly hintRefresh: boolean;
  readonly lensRefresh: boolean;
  /** it looks out for changes of files on disk when it is asked to */
  readonly watches: boolean;
  /** what a hint tells beyond its words is asked for when somebody wants to read it */
  readonly hintResolve: boolean;
  /** places in a text to be filled in; a few words beside an item's name; signs that take an item */
  readonly snippets: boolean;
  readonly labelDetails: boolean;
  readonly commitCharacters: boolean;
  /** the same for the colours of words, and for problems that it has asked for */
  readonly tokenRefresh: boolean;
  readonly diagnosticRefresh: boolean;
  /** it takes what is wrong in another file along with the problems of a document */
  readonly relatedDocuments: boolean;
  /** it folds whole lines */
  readonly foldsLines: boolean;
  readonly linkTooltips: boolean;
  /** it asks what a mend changes once somebody takes it */
  readonly actionResolve: boolean;
  /** it shows how far long work has come */
  readonly progress: boolean;
  /** it can be asked what is set, and tells when that changes */
  readonly configuration: boolean;
  readonly configurationChanges: boolean;
  /** where it shows the page about a problem, with `{code}` in it */
  readonly problemPage: string | undefined;
}

/** One editor at work: its documents, and the files around them. */
export interface Session {
  readonly connection: Connection;
  readonly guard: Guard;
  readonly workspace: Workspace;
  /** where the files are kept that are not open */
  readonly kept: Files;
  readonly client: Client;
  readonly open: () => Iterable<OpenDocument>;
  readonly document: (uri: string) => OpenDocument | undefined;
  readonly idOf: (uri: string) => FileId;
  readonly uriOf: (id: FileId) => string | undefined;
  readonly linesOf: (id: FileId) => TextDocument;
  readonly didOpen: (uri: string, version: number, text: string) => void;
  readonly didChange: (uri: string, version: number, changes: readonly TextDocumentContentChangeEvent[]) => void;
  readonly didClose: (uri: string) => void;
  /** the files of the folder that a file is in, which a `use` in it may bring in */
  readonly neighbours: (id: FileId) => readonly FileId[];
  /** which numbers stand first where teeth are shown */
  readonly toothNumbers: () => ToothNumbering;
  readonly showTeeth: (numbers: ToothNumbering) => void;
  /** what stands in all files of the folders that are worked in */
  readonly files: FilesIndex;
  /** another number whenever some text may be another */
  readonly revision: () => number;
  /** kept files may read differently now */
  readonly refresh: (uris: readonly string[]) => void;
  /** files or whole folders go by other addresses now, or are gone */
  readonly moved: (uris: readonly string[]) => void;
  /** other folders are worked in from now on */
  readonly moveTo: (folders: readonly string[]) => void;
}

export function createSession(
  connection: Connection,
  guard: Guard,
  client: Client,
  folders: readonly string[],
  kept: Files,
): Session {
  let addresses: Addresses = createAddresses(folders, kept);
  const documents = new Map<string, OpenDocument>();
  const byId = new Map<FileId, OpenDocument>();
  const workspace = createWorkspace(
    (id) => {
      const place = addresses.placeOf(id);
      return place ? kept.read(place.root, place.path) : { type: 'absent' };
    },
    () => new Date().toISOString().slice(0, 10),
  );

  const files = createFilesIndex(
    () => addresses.folders().flatMap((folder) => filesBelow(folder, MOST_KNOWN)),
    () => workspace.openIds(),
    (id) => {
      const found = workspace.look(id);
      if (found) return found;
      // It is listed: it has come since it was missed, and the editor has not told of it yet.
      workspace.refresh(id);
      return workspace.look(id);
    },
  );
  const filesBelow = (folder: string, most?: number) =>
    kept.list(folder, ENDING, most).map((path) => addresses.idIn(folder, path));
  let revision = 0;
  let teeth: ToothNumbering = 'iso';

  const add = (uri: string, lines: TextDocument) => {
    revision += 1;
    const document: OpenDocument = { uri, id: addresses.idOf(uri), lines };
    documents.set(uri, document);
    byId.set(document.id, document);
    // A page of the library is as it shipped, whatever the editor holds.
    if (!document.id.startsWith('library:')) workspace.open(document.id, lines.getText());
  };
  const remove = (uri: string) => {
    const document = documents.get(uri);
    if (!document) return;
    revision += 1;
    documents.delete(uri);
    byId.delete(document.id);
    if (!document.id.startsWith('library:')) workspace.close(document.id);
  };

  return {
    connection,
    guard,
    workspace,
    kept,
    client,
    open: () => documents.values(),
    document: (uri) => documents.get(uri),
    idOf: (uri) => documents.get(uri)?.id ?? addresses.idOf(uri),
    uriOf: (id) => byId.get(id)?.uri ?? addresses.uriOf(id),
    linesOf: (id) => {
      const file = workspace.snapshot().file(id);
      return byId.get(id)?.lines ?? (file ? linesOf(file) : TextDocument.create(id, 'curette', 0, ''));
    },
    didOpen: (uri, version, text) => {
      remove(uri);
      add(uri, TextDocument.create(uri, 'curette', version, text));
    },
    didChange: (uri, version, changes) => {
      const document = documents.get(uri);
      if (!document || document.id.startsWith('library:')) return;
      const { id, lines } = document;
      revision += 1;
      for (const change of changes) {
        const [from, to] =
          'range' in change
            ? [lines.offsetAt(change.range.start), lines.offsetAt(change.range.end)]
            : [0, lines.getText().length];
        const start = Math.min(from, to);
        const end = Math.max(from, to);
        // What is no change is refused before it is taken into either text.
        if (typeof change.text !== 'string') throw new Error(`a change of ${uri} has no text`);
        TextDocument.update(lines, [change], version);
        workspace.change(id, [{ start, end, text: change.text, whole: lines.getText() }]);
      }
    },
    didClose: remove,
    neighbours: (id) => {
      const place = addresses.placeOf(id);
      return place ? filesBelow(place.root) : [];
    },
    toothNumbers: () => teeth,
    showTeeth: (numbers) => {
      teeth = numbers;
    },
    files,
    revision: () => revision,
    refresh: (uris) => {
      revision += 1;
      for (const uri of uris) {
        const id = addresses.idOf(uri);
        workspace.refresh(id);
        files.refresh(id);
      }
    },
    moved: (uris) => {
      revision += 1;
      workspace.refreshAll();
      files.relist();
      const ids = uris.map((uri) => addresses.idOf(uri));
      for (const id of [...ids, ...files.ids()])
        if (ids.some((moved) => id === moved || id.startsWith(`${moved}/`))) files.refresh(id);
    },
    moveTo: (folders) => {
      const still = [...documents.values()];
      for (const { uri } of still) remove(uri);
      addresses = createAddresses(folders, kept);
      files.clear();
      for (const { uri, lines } of still) add(uri, lines);
    },
  };
}

/** Reads from the editor's capabilities what matters here. */
export function clientOf(capabilities: ClientCapabilities, problemPage: string | undefined): Client {
  const text = capabilities.textDocument;
  return {
    // An editor that says nothing of diagnostics at all is told as well.
    push: text?.publishDiagnostics !== undefined || text?.diagnostic === undefined,
    version: text?.publishDiagnostics?.versionSupport === true,
    related: text?.publishDiagnostics?.relatedInformation === true || text?.diagnostic?.relatedInformation === true,
    links: text?.definition?.linkSupport === true,
    outline: text?.documentSymbol?.hierarchicalDocumentSymbolSupport === true,
    documentChanges: capabilities.workspace?.workspaceEdit?.documentChanges === true,
    hintRefresh: capabilities.workspace?.inlayHint?.refreshSupport === true,
    lensRefresh: capabilities.workspace?.codeLens?.refreshSupport === true,
    watches: capabilities.workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    hintResolve: text?.inlayHint?.resolveSupport?.properties.includes('tooltip') === true,
    tokenRefresh: capabilities.workspace?.semanticTokens?.refreshSupport === true,
    diagnosticRefresh: capabilities.workspace?.diagnostics?.refreshSupport === true,
    relatedDocuments: text?.diagnostic?.relatedDocumentSupport === true,
    foldsLines: text?.foldingRange?.lineFoldingOnly === true,
    linkTooltips: text?.documentLink?.tooltipSupport === true,
    actionResolve:
      text?.codeAction?.dataSupport === true && text.codeAction.resolveSupport?.properties.includes('edit') === true,
    snippets: text?.completion?.completionItem?.snippetSupport === true,
    labelDetails: text?.completion?.completionItem?.labelDetailsSupport === true,
    commitCharacters: text?.completion?.completionItem?.commitCharactersSupport === true,
    progress: capabilities.window?.workDoneProgress === true,
    configuration: capabilities.workspace?.configuration === true,
    configurationChanges: capabilities.workspace?.didChangeConfiguration?.dynamicRegistration === true,
    problemPage,
  };
}
