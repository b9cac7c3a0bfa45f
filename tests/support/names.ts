/** The editor's answers about names over all files of a fixture, as text that can be read in a test. */
import {
  type CallItem,
  callItemsAt,
  createFilesIndex,
  documentHighlights,
  type FilesIndex,
  fileRenameEdits,
  implementations,
  incomingCalls,
  type Move,
  outgoingCalls,
  prepareRename,
  references,
  rename,
  subtypes,
  supertypes,
  symbolsIn,
  typeDefinition,
  typeItemAt,
  type Workspace,
  workspaceSymbols,
} from '@curette/server';
import { type Cursor, type Fixture, readFixture, workspaceOf } from './fixture.ts';

/** Where what stands under the cursor is named: `file:line word`, and the words around it. */
export function referencesAt(text: string, withDeclaration = true): readonly string[] {
  const { workspace, files, cursor } = read(text);
  return toEnd(references(workspace, files, cursor.file, cursor.start, withDeclaration)).map((at) =>
    lineAt(workspace, at),
  );
}

/**
 * What a rename makes of a fixture: the files that become other ones, with `//- path` before each; or the reason why it is not done.
 */
export function renameAt(text: string, newName: string): string {
  const { workspace, files, cursor } = read(text);
  const done = toEnd(rename(workspace, files, cursor.file, cursor.start, newName));
  return done.ok ? withEdits(workspace, done.edits) : done.reason;
}

/** The word that would be renamed, or why it is not. */
export function prepareRenameAt(text: string): string {
  const { workspace, cursor } = read(text);
  const prepared = prepareRename(workspace, cursor.file, cursor.start);
  return prepared.ok ? wordsAt(workspace, prepared.word) : prepared.reason;
}

/** The highlighted places of the file that the cursor is in: `line word`, with a `*` where it is changed. */
export function highlightsAt(text: string): readonly string[] {
  const { workspace, cursor } = read(text);
  return documentHighlights(workspace, cursor.file, cursor.start).map(
    (at) => `${lineAt(workspace, at).replace(/^[^:]*:/, '')}${at.access === 'write' ? ' *' : ''}`,
  );
}

/** What is found in a fixture by some letters, best first; the library's too, when asked for. */
export function symbolsFor(text: string, query: string, library = false): readonly string[] {
  const { workspace, files } = read(text);
  const shipped = workspace.snapshot().library.flatMap((id) => symbolsIn(workspace.look(id) ?? missing(id)));
  return toEnd(workspaceSymbols(query, [files.symbols(), library ? shipped : []])).map(
    ({ name, sort, container, file }) =>
      `${name} (${sort}) ${container === undefined ? file : `${container}, ${file}`}`,
  );
}

/** What the verb or protocol under the cursor is; with `from:` who calls it, with `to:` what it calls. */
export function callsAt(text: string): readonly string[] {
  const { workspace, files, cursor } = read(text);
  const word = ({ sort, name, file }: CallItem) => `${sort} ${name}, ${file}`;
  const lines = (which: string, calls: ReturnType<typeof toCalls>) =>
    calls.map(({ item, at }) => `${which} ${word(item)}: ${at.map((one) => lineAt(workspace, one)).join(', ')}`);
  return [
    ...callItemsAt(workspace, cursor.file, cursor.start).map(word),
    ...lines('from:', toEnd(incomingCalls(workspace, files, cursor.file, cursor.start))),
    ...lines('to:', toEnd(outgoingCalls(workspace, cursor.file, cursor.start))),
  ];
}

/** The kind or entry under the cursor; `is:` what it is, `below:` what is it. */
export function typesAt(text: string): readonly string[] {
  const { workspace, files, cursor } = read(text);
  const item = typeItemAt(workspace, cursor.file, cursor.start);
  return [
    ...(item ? [`${item.sort} ${item.name}`] : []),
    ...supertypes(workspace, cursor.file, cursor.start).map(({ name }) => `is: ${name}`),
    ...toEnd(subtypes(workspace, files, cursor.file, cursor.start)).map(({ name }) => `below: ${name}`),
  ];
}

export function implementationsAt(text: string): readonly string[] {
  const { workspace, files, cursor } = read(text);
  return toEnd(implementations(workspace, files, cursor.file, cursor.start)).map((at) => lineAt(workspace, at));
}

export function typeDefinitionsAt(text: string): readonly string[] {
  const { workspace, cursor } = read(text);
  const found = typeDefinition(workspace, cursor.file, cursor.start);
  return (found?.targets ?? []).map((at) => lineAt(workspace, at));
}

/** The files that moving others makes other ones, by their paths before it. */
export function movedFiles(text: string, ...moves: readonly Move[]): string {
  const { workspace, files } = read(`${text}`, false);
  return withEdits(workspace, toEnd(fileRenameEdits(workspace, files, moves)));
}

/** All files of a fixture, known to the index. */
export function filesOf(fixture: Fixture, workspace: Workspace): FilesIndex {
  const files = createFilesIndex(
    () => fixture.files.map(({ id }) => id),
    () => workspace.openIds(),
    workspace.look,
  );
  toEnd(files.bringUpToDate());
  return files;
}

/** Runs what pauses now and then to its end. */
export function toEnd<Result>(running: Generator<void, Result>): Result {
  for (;;) {
    const next = running.next();
    if (next.done) return next.value;
  }
}

interface Stretch {
  readonly file: string;
  readonly start: number;
  readonly end: number;
}

const toCalls = (calls: readonly { readonly item: CallItem; readonly at: readonly Stretch[] }[]) => calls;

function read(
  text: string,
  cursorWanted = true,
): { readonly fixture: Fixture; readonly workspace: Workspace; readonly files: FilesIndex; readonly cursor: Cursor } {
  const fixture = readFixture(text);
  const cursor = fixture.cursor ?? { file: '', start: 0, end: 0 };
  if (cursorWanted && !fixture.cursor && text.includes('$0')) throw new Error('the cursor ($0) is in no file');
  const workspace = workspaceOf(fixture);
  return { fixture, workspace, files: filesOf(fixture, workspace), cursor };
}

function textOf(workspace: Workspace, file: string): string {
  return workspace.snapshot().file(file)?.text ?? missing(file);
}

function wordsAt(workspace: Workspace, { file, start, end }: Stretch): string {
  return textOf(workspace, file).slice(start, end);
}

function lineAt(workspace: Workspace, at: Stretch): string {
  const line = textOf(workspace, at.file).slice(0, at.start).split('\n').length;
  return `${at.file}:${line} ${wordsAt(workspace, at)}`;
}

function withEdits(workspace: Workspace, edits: readonly (Stretch & { readonly text: string })[]): string {
  const byFile = new Map<string, string>();
  for (const { file, start, end, text } of [...edits].sort((a, b) => b.start - a.start)) {
    const now = byFile.get(file) ?? textOf(workspace, file);
    byFile.set(file, now.slice(0, start) + text + now.slice(end));
  }
  return [...byFile]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([file, text]) => `//- ${file}\n${text}`)
    .join('');
}

function missing(file: string): never {
  throw new Error(`there is no file ${file}`);
}
