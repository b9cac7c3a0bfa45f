/** The editor's answers to a fixture, as text that can be read in a test. The fixture's cursor says where they are asked for. */
import {
  codeActions,
  codeLenses,
  completion,
  type DocumentSymbol,
  definition,
  documentSymbols,
  hintTooltip,
  hover,
  inlayHints,
  lensTitle,
} from '@curette/server';
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

/** What an item would write, its gaps as `[…]`; and what is told of it. Fails when it is not offered. */
export function offeredAt(text: string, label: string): { readonly writes: string; readonly told: string } {
  const { fixture, cursor } = withCursor(text);
  const files = fixture.files.map(({ id }) => id);
  const { items, tell } = completion(workspaceOf(fixture), cursor.file, cursor.start, () => files);
  const item = items.find((other) => other.label === label);
  if (!item) throw new Error(`${label} is not offered, but ${items.map((other) => other.label).join(', ')}`);
  const writes = (item.form ?? [label]).map((part) =>
    typeof part === 'string' ? part : `[${part.choices.length > 0 ? part.choices.join('|') : part.text}]`,
  );
  return { writes: writes.join(''), told: tell(item) };
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

/** The lines that have hints in them, as the editor shows them: each hint in square brackets. All lines, or those of a selection. */
export function hintsIn(text: string): string {
  const fixture = readFixture(text);
  const file = fixture.cursor?.file ?? fixture.files[0]?.id ?? '';
  const written = fixture.files.find(({ id }) => id === file)?.text ?? '';
  const { start, end } = fixture.cursor ?? { start: 0, end: written.length };
  const hints = inlayHints(workspaceOf(fixture), file, start, end);
  let shown = written;
  for (const { at, label } of [...hints].sort((a, b) => b.at - a.at))
    shown = `${shown.slice(0, at)} [${label}]${shown.slice(at)}`;
  const lines = written.split('\n');
  return shown
    .split('\n')
    .filter((line, i) => line !== lines[i])
    .map((line) => line.replace(/^ {4}/, ''))
    .join('\n');
}

/** What is told when somebody asks for more about the hint of the line that the cursor is in; empty when it has none. */
export function hintAt(text: string): string {
  const { fixture, cursor } = withCursor(text);
  const written = fixture.files.find(({ id }) => id === cursor.file)?.text ?? '';
  const start = written.lastIndexOf('\n', cursor.start - 1) + 1;
  const end = written.indexOf('\n', cursor.start);
  const [hint] = inlayHints(workspaceOf(fixture), cursor.file, start, end < 0 ? written.length : end);
  return hint ? (hintTooltip(workspaceOf(fixture), cursor.file, hint.statement) ?? '') : '';
}

/** The lenses of the first file: what each stands above, and what it says. */
export function lensesOf(text: string): readonly string[] {
  const fixture = readFixture(text);
  const file = fixture.files[0]?.id ?? '';
  const workspace = workspaceOf(fixture);
  return codeLenses(workspace, file).map(
    (lens) => `${textAt(fixture, lens)}: ${lensTitle(workspace, file, lens.statement)}`,
  );
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
