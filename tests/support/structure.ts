/** How the editor sees the build of a text, written so that it can be read in a test. */
import {
  documentLinks,
  fixAll,
  fixAllOffers,
  fixSpelling,
  foldingRanges,
  type SemanticToken,
  selectionRanges,
  semanticTokens,
  signatureHelp,
  type Workspace,
} from '@curette/server';
import { type Cursor, type Fixture, readFixture, workspaceOf } from './fixture.ts';

/** The words that have a colour, each as `word: sort mark`, a line of the text a line; all lines, or those of a selection. */
export function tokensIn(text: string): string {
  const { workspace, id, written, cursor } = opened(text);
  const { start, end } = cursor ?? { start: 0, end: written.length };
  return tokenLines(written, semanticTokens(workspace, id, start, end));
}

export function tokenLines(written: string, tokens: readonly SemanticToken[]): string {
  const lines = new Map<number, string[]>();
  for (const { start, end, sort, marks } of tokens) {
    const line = written.slice(0, start).split('\n').length;
    const words = lines.get(line) ?? [];
    words.push([`${written.slice(start, end)}: ${sort}`, ...marks].join(' '));
    lines.set(line, words);
  }
  return [...lines.values()].map((words) => words.join(', ')).join('\n');
}

/** What may be put away, each as `sort: first line … last line`. */
export function foldsIn(text: string): readonly string[] {
  const { workspace, id, written } = opened(text);
  return foldingRanges(workspace, id).map(({ start, end, sort }) => {
    const first = written.slice(written.lastIndexOf('\n', start - 1) + 1).split('\n')[0] ?? '';
    const last = written.slice(written.lastIndexOf('\n', end - 1) + 1).split('\n')[0] ?? '';
    return `${sort}: ${first.trim()} … ${last.trim()}`;
  });
}

/** What is selected step by step at the cursor, smallest first; line ends as ⏎. */
export function selectionsAt(text: string): readonly string[] {
  const { workspace, id, written, cursor } = opened(text);
  if (!cursor) throw new Error('the fixture has no cursor ($0)');
  return selectionRanges(workspace, id, cursor.start).map(({ start, end }) =>
    written.slice(start, end).replace(/\s*\n\s*/g, '⏎'),
  );
}

/** The links of a text: `words → where (tooltip)`. */
export function linksIn(text: string): readonly string[] {
  const { workspace, id, written } = opened(text);
  return documentLinks(workspace, id).map(({ start, end, target, tooltip }) => {
    const where = target.type === 'page' ? target.address : target.id;
    return `${written.slice(start, end)} → ${where} (${tooltip})`;
  });
}

/** How the step at the cursor may go on: each action's reading, the active slot in «», a star before the one that is meant. */
export function signaturesAt(text: string): readonly string[] {
  const { workspace, id, cursor } = opened(text);
  if (!cursor) throw new Error('the fixture has no cursor ($0)');
  const help = signatureHelp(workspace, id, cursor.start);
  return (help?.signatures ?? []).map(({ label, slots, activeSlot }, i) => {
    const slot = activeSlot === undefined ? undefined : slots[activeSlot];
    const shown = slot
      ? `${label.slice(0, slot.start)}«${label.slice(slot.start, slot.end)}»${label.slice(slot.end)}`
      : label;
    return `${i === help?.active ? '* ' : ''}${shown}`;
  });
}

/** What is told of the action that is meant at the cursor, and of its active slot. */
export function signatureAt(text: string): { readonly action: string; readonly slot: string } {
  const { workspace, id, cursor } = opened(text);
  const help = cursor && signatureHelp(workspace, id, cursor.start);
  const signature = help?.signatures[help.active];
  if (!signature) throw new Error('no action is told of at the cursor');
  return {
    action: signature.markdown,
    slot: signature.activeSlot === undefined ? '' : (signature.slots[signature.activeSlot]?.markdown ?? ''),
  };
}

/** The text after all problems of a kind were mended; `name` left out: after all that is but spelling was. */
export function mendedAll(text: string, name?: string): string {
  const { workspace, id, written } = opened(text);
  const changes = name === undefined ? fixSpelling(workspace, id) : fixAll(workspace, id, name);
  return [...changes]
    .sort((a, b) => b.start - a.start)
    .reduce((now, { start, end, text: by }) => now.slice(0, start) + by + now.slice(end), written);
}

/** The kinds of problem, of those named, that can be mended at once. */
export function offersIn(text: string, ...names: readonly string[]): readonly string[] {
  const { workspace, id } = opened(text);
  return fixAllOffers(workspace, id, new Set(names)).map(({ title }) => title);
}

/** A fixture's file with the cursor in it, or its first one. */
function opened(text: string): {
  readonly fixture: Fixture;
  readonly workspace: Workspace;
  readonly id: string;
  readonly written: string;
  readonly cursor: Cursor | undefined;
} {
  const fixture = readFixture(text);
  const id = fixture.cursor?.file ?? fixture.files[0]?.id ?? '';
  const written = fixture.files.find((file) => file.id === id)?.text ?? '';
  return { fixture, workspace: workspaceOf(fixture), id, written, cursor: fixture.cursor };
}
