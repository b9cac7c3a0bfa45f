import { heldFilesNotification } from '@curette/shared';
import type { Connection, InitializeParams } from 'vscode-languageserver';
import type { Files } from '../workspace/files.ts';
import { createHeldFiles, diskAndHeld } from '../workspace/held-files.ts';
import { answerAnnotations } from './annotations.ts';
import { capabilities } from './capabilities.ts';
import { answerCodeActions } from './code-actions.ts';
import { answerCompletion } from './completion.ts';
import { followConfiguration } from './configuration.ts';
import { answerCurette } from './curette.ts';
import { answerDiagnostics } from './diagnostics.ts';
import { answerEditor } from './editor.ts';
import { answerFileOperations, watchFiles } from './file-operations.ts';
import { answerFormatting } from './formatting.ts';
import { createGuard, type Strays } from './guard.ts';
import { answerHierarchies } from './hierarchies.ts';
import { answerHover } from './hover.ts';
import { answerNewProtocol } from './new-protocol.ts';
import { readOptions } from './options.ts';
import { createPublisher } from './publish.ts';
import { answerReferences } from './references.ts';
import { answerRename } from './rename.ts';
import { answerSemanticTokens } from './semantic-tokens.ts';
import { clientOf, createSession, type Session } from './session.ts';
import { answerSignatureHelp } from './signature-help.ts';
import { answerStructure } from './structure.ts';
import { createWorkspaceCheck } from './workspace-check.ts';
import { answerWorkspaceSymbols } from './workspace-symbols.ts';

/** What the server finds where it runs. */
export interface Place {
  /** undefined: there is none, and every file comes from the editor */
  readonly disk: Files | undefined;
  readonly strays: Strays;
}

/** Takes up a connection: from the first message to the last. */
export function serve(connection: Connection, { disk, strays }: Place): void {
  const guard = createGuard(connection, strays);
  const held = createHeldFiles();
  const kept = disk ? diskAndHeld(disk, held) : held;
  let session: Session | undefined;
  let publisher: ReturnType<typeof createPublisher> | undefined;
  let annotations: ReturnType<typeof answerAnnotations> | undefined;
  let colours: ReturnType<typeof answerSemanticTokens> | undefined;
  let check: ReturnType<typeof createWorkspaceCheck> | undefined;
  let checksWorkspace = true;
  let folders: readonly string[] = [];
  let watchesFolders = false;

  connection.onInitialize((params) => {
    folders = foldersOf(params);
    watchesFolders = params.capabilities.workspace?.workspaceFolders === true;
    const options = readOptions(params.initializationOptions, guard);
    for (const { uri, content } of options.files ?? []) held.put(uri, content);
    const client = clientOf(params.capabilities, options.problemPage);
    const made = createSession(connection, guard, client, folders, kept);
    session = made;
    const curette = answerCurette(made);
    const noted = answerAnnotations(made);
    annotations = noted;
    const coloured = answerSemanticTokens(made);
    colours = coloured;
    const checking = createWorkspaceCheck(made, () => folders);
    check = checking;
    checksWorkspace = options.checkWorkspace ?? true;
    const published = createPublisher(
      made,
      (uri, facts) => {
        curette.changed(uri, facts);
        noted.changed(uri, facts);
        coloured.changed(uri, facts);
        checking.changed(uri, facts);
      },
      checking.tellSettings,
    );
    publisher = published;
    answerEditor(made);
    answerHover(made);
    answerCompletion(made);
    answerDiagnostics(made, checking);
    answerCodeActions(made);
    answerStructure(made);
    answerSignatureHelp(made);
    answerReferences(made);
    answerRename(made);
    answerWorkspaceSymbols(made);
    answerHierarchies(made);
    answerFileOperations(made, (uris) => {
      publisher?.changed();
      checking.touched(uris);
    });
    answerFormatting(made);
    answerNewProtocol(made);
    return { capabilities: capabilities(client), serverInfo: { name: 'curette' } };
  });

  const cover = () => check?.cover(checksWorkspace ? 'workspace' : 'only open');
  connection.onInitialized(() => {
    if (session) watchFiles(session);
    if (session)
      followConfiguration(session, { checkWorkspace: checksWorkspace }, ({ checkWorkspace, toothNumbers }) => {
        checksWorkspace = checkWorkspace;
        session?.showTeeth(toothNumbers);
        cover();
      });
    if (!watchesFolders) return;
    connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) =>
      guard.run(
        'folders',
        () => {
          const gone = new Set(removed.map(({ uri }) => uri));
          folders = [...folders.filter((uri) => !gone.has(uri)), ...added.map(({ uri }) => uri)];
          session?.moveTo(folders);
          publisher?.changed();
          cover();
        },
        undefined,
      ),
    );
  });

  connection.onDidOpenTextDocument(({ textDocument: { uri, version, text } }) =>
    guard.run(
      'opening',
      () => {
        session?.didOpen(uri, version, text);
        publisher?.changed();
        check?.opened(uri);
      },
      undefined,
    ),
  );
  connection.onDidChangeTextDocument(({ textDocument: { uri, version }, contentChanges }) =>
    guard.run(
      'a change',
      () => {
        session?.didChange(uri, version, contentChanges);
        publisher?.changed();
        check?.typed();
      },
      undefined,
    ),
  );
  connection.onDidCloseTextDocument(({ textDocument: { uri } }) =>
    guard.run(
      'closing',
      () => {
        session?.didClose(uri);
        publisher?.closed(uri);
        annotations?.closed(uri);
        colours?.closed(uri);
        publisher?.changed();
        check?.closed(uri);
      },
      undefined,
    ),
  );
  connection.onDidChangeWatchedFiles(({ changes }) =>
    guard.run(
      'files that changed',
      () => {
        session?.refresh(changes.map(({ uri }) => uri));
        publisher?.changed();
        check?.touched(changes.map(({ uri }) => uri));
      },
      undefined,
    ),
  );
  connection.onNotification(heldFilesNotification.method, (params: unknown) =>
    guard.run(
      'files that the editor reads',
      () => {
        const { files } = heldFilesNotification.params.parse(params);
        for (const { uri, content } of files) held.put(uri, content);
        const uris = files.map(({ uri }) => uri);
        session?.refresh(uris);
        publisher?.changed();
        check?.touched(uris);
      },
      undefined,
    ),
  );
  connection.onShutdown(() => undefined);
}

function foldersOf(params: InitializeParams): string[] {
  if (params.workspaceFolders) return params.workspaceFolders.map(({ uri }) => uri);
  return params.rootUri ? [params.rootUri] : [];
}
