import { forEachStatement, type Statement } from '@curette/grammar';
import { locate } from '../analysis/locate.ts';
import type { SourceFile } from '../analysis/snapshot.ts';
import type { FileId, Place } from '../problems/problem.ts';
import type { Checked, Stretch } from './checked.ts';
import { type Named, namedAt } from './named.ts';
import { referencesTo } from './references.ts';
import type { WorkspaceFiles } from './workspace-files.ts';

/** A protocol, a procedure or an action: what is carried out. */
export interface CallItem {
  readonly sort: 'protocol' | 'procedure' | 'action';
  readonly name: string;
  readonly label: string | undefined;
  readonly file: FileId;
  /** the declaration, and its name in it */
  readonly whole: Stretch;
  readonly word: Stretch;
}

export interface Call {
  /** who calls, or what is called */
  readonly item: CallItem;
  /** the lines that say so: the words there */
  readonly at: readonly Stretch[];
}

/** What is carried out by the verb, or is the protocol, that stands at an offset. */
export function callItemsAt(checked: Checked, id: FileId, offset: number): readonly CallItem[] {
  const at = namedAt(checked, id, offset);
  return at ? itemsOf(checked, at.named) : [];
}

/** The protocols and procedures that have it as a step, or follow it. */
export function* incomingCalls(
  checked: Checked,
  files: WorkspaceFiles,
  id: FileId,
  offset: number,
): Generator<void, readonly Call[]> {
  const at = namedAt(checked, id, offset);
  if (!at || itemsOf(checked, at.named).length === 0) return [];
  const calls = new Map<string, { readonly item: CallItem; readonly at: Stretch[] }>();
  for (const { file, start, end, around } of yield* referencesTo(checked, files, at.named)) {
    const innermost = around.path.at(-1)?.statement;
    const top = around.path[0];
    if (!top || (innermost?.type !== 'step' && innermost?.type !== 'follows')) continue;
    add(calls, itemOf(around.file, top.statement, top.start), { file, start, end });
  }
  return [...calls.values()];
}

/** What it has as steps, and what it follows. */
export function* outgoingCalls(checked: Checked, id: FileId, offset: number): Generator<void, readonly Call[]> {
  const at = namedAt(checked, id, offset);
  const calls = new Map<string, { readonly item: CallItem; readonly at: Stretch[] }>();
  for (const place of at && itemsOf(checked, at.named).length > 0 ? at.named.declarations : []) {
    const file = checked.snapshot().file(place.file);
    const top = file && topAt(file, place);
    if (!file || (top?.statement.type !== 'protocol' && top?.statement.type !== 'procedure')) continue;
    for (const word of wordsCalling(file, top.statement)) {
      const called = namedAt(checked, place.file, word.start);
      for (const item of called ? itemsOf(checked, called.named) : []) add(calls, item, word);
      yield;
    }
  }
  return [...calls.values()];
}

function wordsCalling({ id, tree }: SourceFile, inside: Statement): readonly Stretch[] {
  const found: Stretch[] = [];
  forEachStatement(tree, (statement, start, parents) => {
    if (parents.length === 0) return statement === inside;
    const word =
      statement.type === 'step' ? statement.verb : statement.type === 'follows' ? statement.protocol : undefined;
    if (word) found.push({ file: id, start: start + word.start, end: start + word.end });
    return true;
  });
  return found;
}

function itemsOf(checked: Checked, { sort, declarations }: Named): readonly CallItem[] {
  if (sort !== 'actions' && sort !== 'protocol') return [];
  return declarations.flatMap((place) => {
    const file = checked.snapshot().file(place.file);
    const top = file && topAt(file, place);
    return (file && top && itemOf(file, top.statement, top.start)) ?? [];
  });
}

function topAt(file: SourceFile, { statement }: Place) {
  return locate(file.tree, statement);
}

function itemOf({ id }: SourceFile, statement: Statement, start: number): CallItem | undefined {
  if (statement.type !== 'protocol' && statement.type !== 'procedure' && statement.type !== 'action') return undefined;
  const word = statement.type === 'protocol' ? statement.name : statement.verb;
  if (!word) return undefined;
  return {
    sort: statement.type,
    name: word.text,
    label: statement.label?.value,
    file: id,
    whole: { file: id, start: start + statement.head.start, end: start + statement.length },
    word: { file: id, start: start + word.start, end: start + word.end },
  };
}

function add(
  calls: Map<string, { readonly item: CallItem; readonly at: Stretch[] }>,
  item: CallItem | undefined,
  at: Stretch,
): void {
  if (!item) return;
  const key = `${item.file} ${item.word.start}`;
  const known = calls.get(key);
  if (known) known.at.push(at);
  else calls.set(key, { item, at: [at] });
}
