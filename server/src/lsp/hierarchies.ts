import { type CallHierarchyItem, type Range, SymbolKind, type TypeHierarchyItem } from 'vscode-languageserver';
import { type CallItem, callItemsAt, incomingCalls, outgoingCalls } from '../ide/call-hierarchy.ts';
import type { Stretch } from '../ide/checked.ts';
import { subtypes, supertypes, type TypeItem, typeItemAt } from '../ide/type-hierarchy.ts';
import type { FileId } from '../problems/problem.ts';
import type { Session } from './session.ts';
import { toRange, toSymbolKind } from './to-lsp.ts';
import { answerFromAllFiles } from './whole-workspace.ts';

/** Answers what uses what: protocols, procedures and actions; and what is what: kinds and entries. */
export function answerHierarchies(session: Session): void {
  const { connection, workspace, guard, files } = session;
  /** where an item was found; its name is looked at anew, since its text may have changed */
  const placeOf = ({ uri, selectionRange }: { readonly uri: string; readonly selectionRange: Range }) => {
    const id = session.idOf(uri);
    return { id, offset: session.linesOf(id).offsetAt(selectionRange.start) };
  };
  const ranges = (at: readonly Stretch[]) => at.map((one) => toRange(session.linesOf(one.file), one));

  connection.languages.callHierarchy.onPrepare(({ textDocument: { uri }, position }, token) =>
    guard.answer('who uses it', token, () => {
      const id = session.idOf(uri);
      return callItemsAt(workspace, id, session.linesOf(id).offsetAt(position)).flatMap((item) =>
        toCallItem(session, item),
      );
    }),
  );
  connection.languages.callHierarchy.onIncomingCalls(({ item }, token) =>
    answerFromAllFiles(session, 'who uses it', token, function* () {
      const { id, offset } = placeOf(item);
      const calls = yield* incomingCalls(workspace, files, id, offset);
      return calls.flatMap(({ item: caller, at }) =>
        toCallItem(session, caller).map((from) => ({ from, fromRanges: ranges(at) })),
      );
    }),
  );
  connection.languages.callHierarchy.onOutgoingCalls(({ item }, token) =>
    answerFromAllFiles(session, 'what it uses', token, function* () {
      const { id, offset } = placeOf(item);
      const calls = yield* outgoingCalls(workspace, id, offset);
      return calls.flatMap(({ item: called, at }) =>
        toCallItem(session, called).map((to) => ({ to, fromRanges: ranges(at) })),
      );
    }),
  );

  const typeItems = (items: readonly TypeItem[]) => items.flatMap((item) => toTypeItem(session, item));
  connection.languages.typeHierarchy.onPrepare(({ textDocument: { uri }, position }, token) =>
    guard.answer('what is what', token, () => {
      const id = session.idOf(uri);
      const item = typeItemAt(workspace, id, session.linesOf(id).offsetAt(position));
      return item ? typeItems([item]) : null;
    }),
  );
  connection.languages.typeHierarchy.onSupertypes(({ item }, token) =>
    guard.answer('what it is', token, () => {
      const { id, offset } = placeOf(item);
      return typeItems(supertypes(workspace, id, offset));
    }),
  );
  connection.languages.typeHierarchy.onSubtypes(({ item }, token) =>
    answerFromAllFiles(session, 'what is of a kind', token, function* () {
      const { id, offset } = placeOf(item);
      return typeItems(yield* subtypes(workspace, files, id, offset));
    }),
  );
}

function toCallItem(session: Session, item: CallItem): CallHierarchyItem[] {
  const kind = item.sort === 'procedure' ? SymbolKind.Method : toSymbolKind(item.sort);
  return toItem(session, item.file, item.whole, item.word).map((place) => ({
    ...place,
    name: item.name,
    kind,
    ...(item.label === undefined ? {} : { detail: item.label }),
  }));
}

function toTypeItem(session: Session, item: TypeItem): TypeHierarchyItem[] {
  return toItem(session, item.file, item.whole, item.word).map((place) => ({
    ...place,
    name: item.name,
    kind: toSymbolKind(item.sort),
    detail: item.label,
  }));
}

function toItem(session: Session, file: FileId, whole: Stretch, word: Stretch) {
  const uri = session.uriOf(file);
  const lines = session.linesOf(file);
  return uri === undefined ? [] : [{ uri, range: toRange(lines, whole), selectionRange: toRange(lines, word) }];
}
