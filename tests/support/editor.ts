/** The editor's answers to a fixture, as text that can be read in a test. The fixture's cursor says where they are asked for. */
import { codeActions, completion, type DocumentSymbol, definition, documentSymbols, hover } from '@curette/server';
import { type Cursor, type Fixture, readFixture, workspaceOf } from './fixture.ts';

/** What the editor tells of the word under the cursor; the word stands before it. Empty when it tells nothing. */
export function hoverAt(text: string): string {
  const { fixture, cursor } = withCursor(text);
  const told = hover(workspaceOf(fixture), cursor.file, cursor.start);
  return told ? `${textAt(fixture, told)}\n\n${told.markdown}` : '';
}

/** What may be written at the cursor, best first; each with what is said of it. */
export function completionsAt(text: string): { readonly typed: string; readonly offered: readonly string[] } {
  const { fixture, cursor } = withCursor(text);
  const files = fixture.files.map(({ id }) => id);
  const { typed, items } = completion(workspaceOf(fixture), cursor.file, cursor.start, () => files);
  return {
    typed: textAt(fixture, typed),
    offered: items.map(({ label, detail }) => (detail === undefined ? label : `${label}: ${detail}`)),
  };
}

/** The same, names alone. */
export function namesAt(text: string): readonly string[] {
  return completionsAt(text).offered.map((offered) => offered.replace(/: .*$/s, ''));
}

/** Where what stands under the cursor is declared: the file, and the words there. */
export function definitionsAt(text: string): readonly string[] {
  const { fixture, cursor } = withCursor(text);
  const workspace = workspaceOf(fixture);
  return (definition(workspace, cursor.file, cursor.start)?.targets ?? []).map(({ file, start, end }) => {
    const source = workspace.snapshot().file(file)?.text ?? '';
    const line = source.slice(0, start).split('\n').length;
    return `${file}:${line} ${source.slice(start, end)}`.trimEnd();
  });
}

/** The outline, a line each, indented. */
export function outlineOf(text: string): string {
  const fixture = readFixture(text);
  const lines = (symbols: readonly DocumentSymbol[], indent: string): string[] =>
    symbols.flatMap(({ name, detail, children }) => [
      `${indent}${name}${detail === undefined ? '' : ` — ${detail}`}`,
      ...lines(children, `${indent}  `),
    ]);
  return lines(documentSymbols(workspaceOf(fixture), fixture.files[0]?.id ?? ''), '').join('\n');
}

/** The mends offered for the cursor or the selection; the preferred ones have a star. */
export function mendsAt(text: string): readonly string[] {
  const { fixture, cursor } = withCursor(text);
  return codeActions(workspaceOf(fixture), cursor.file, cursor.start, cursor.end).map(
    ({ title, preferred }) => `${title}${preferred ? ' *' : ''}`,
  );
}

function withCursor(text: string): { readonly fixture: Fixture; readonly cursor: Cursor } {
  const fixture = readFixture(text);
  const { cursor } = fixture;
  if (!cursor) throw new Error('the fixture has no cursor ($0)');
  return { fixture, cursor };
}

function textAt(
  fixture: Fixture,
  place: { readonly file: string; readonly start: number; readonly end: number },
): string {
  return fixture.files.find(({ id }) => id === place.file)?.text.slice(place.start, place.end) ?? '';
}
