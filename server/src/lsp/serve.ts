import type { Connection, InitializeParams } from 'vscode-languageserver/node';
import { answerAnnotations } from './annotations.ts';
import { capabilities } from './capabilities.ts';
import { answerCurette } from './curette.ts';
import { answerEditor } from './editor.ts';
import { answerFormatting } from './formatting.ts';
import { createGuard } from './guard.ts';
import { readOptions } from './options.ts';
import { createPublisher } from './publish.ts';
import { clientOf, createSession, type Session } from './session.ts';

/** Takes up a connection: from the first message to the last. */
export function serve(connection: Connection): void {
  const guard = createGuard(connection);
  let session: Session | undefined;
  let publisher: ReturnType<typeof createPublisher> | undefined;
  let annotations: ReturnType<typeof answerAnnotations> | undefined;
  let folders: readonly string[] = [];
  let watchesFolders = false;

  connection.onInitialize((params) => {
    folders = foldersOf(params);
    watchesFolders = params.capabilities.workspace?.workspaceFolders === true;
    const options = readOptions(params.initializationOptions, guard);
    const client = clientOf(params.capabilities, options.problemPage);
    const made = createSession(connection, guard, client, folders);
    session = made;
    const curette = answerCurette(made);
    const noted = answerAnnotations(made);
    annotations = noted;
    const published = createPublisher(made, (uri, facts) => {
      curette.changed(uri, facts);
      noted.changed(uri, facts);
    });
    publisher = published;
    answerEditor(made, published);
    answerFormatting(made);
    return { capabilities: capabilities(client), serverInfo: { name: 'curette' } };
  });

  connection.onInitialized(() => {
    if (!watchesFolders) return;
    connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) =>
      guard.run(
        'folders',
        () => {
          const gone = new Set(removed.map(({ uri }) => uri));
          folders = [...folders.filter((uri) => !gone.has(uri)), ...added.map(({ uri }) => uri)];
          session?.moveTo(folders);
          publisher?.changed();
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
        publisher?.changed();
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
