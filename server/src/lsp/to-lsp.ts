import { CompletionItemKind, DiagnosticSeverity, type Range, SymbolKind } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { ItemSort } from '../ide/completion/items.ts';
import type { SymbolSort } from '../ide/document-symbols.ts';
import type { Severity } from '../problems/problem.ts';

/** Offsets as lines and UTF-16 columns. */
export function toRange(lines: TextDocument, span: { readonly start: number; readonly end: number }): Range {
  return { start: lines.positionAt(span.start), end: lines.positionAt(span.end) };
}

export function toSeverity(severity: Severity): DiagnosticSeverity {
  switch (severity) {
    case 'error':
      return DiagnosticSeverity.Error;
    case 'warning':
      return DiagnosticSeverity.Warning;
    case 'advice':
      return DiagnosticSeverity.Information;
    default:
      return severity satisfies never;
  }
}

/** The editor's symbols are those of programs; these are the nearest in look. */
export function toSymbolKind(sort: SymbolSort): SymbolKind {
  switch (sort) {
    case 'kind':
      return SymbolKind.Class;
    case 'entry':
      return SymbolKind.Constant;
    case 'action':
      return SymbolKind.Function;
    case 'rule':
      return SymbolKind.Operator;
    case 'source':
      return SymbolKind.File;
    case 'finding':
      return SymbolKind.Enum;
    case 'value':
      return SymbolKind.EnumMember;
    case 'unit':
      return SymbolKind.Number;
    case 'protocol':
      return SymbolKind.Module;
    case 'case':
      return SymbolKind.Object;
    case 'visit':
      return SymbolKind.Namespace;
    case 'list':
      return SymbolKind.Array;
    case 'thing':
      return SymbolKind.Variable;
    case 'pause':
      return SymbolKind.Key;
    case 'decision':
      return SymbolKind.Boolean;
    case 'option':
      return SymbolKind.EnumMember;
    case 'step':
      return SymbolKind.Method;
    case 'wait':
      return SymbolKind.Event;
    case 'contingency':
      return SymbolKind.Interface;
    default:
      return sort satisfies never;
  }
}

export function toCompletionKind(sort: ItemSort): CompletionItemKind {
  switch (sort) {
    case 'keyword':
    case 'preposition':
      return CompletionItemKind.Keyword;
    case 'action':
      return CompletionItemKind.Function;
    case 'thing':
    case 'slot':
      return CompletionItemKind.Variable;
    case 'place':
    case 'entry':
      return CompletionItemKind.Constant;
    case 'kind':
      return CompletionItemKind.Class;
    case 'unit':
      return CompletionItemKind.Unit;
    case 'role':
      return CompletionItemKind.Reference;
    case 'source':
    case 'file':
      return CompletionItemKind.File;
    case 'property':
      return CompletionItemKind.Property;
    case 'state':
    case 'value':
      return CompletionItemKind.EnumMember;
    case 'finding':
      return CompletionItemKind.Enum;
    case 'pause':
      return CompletionItemKind.Event;
    case 'rule':
      return CompletionItemKind.Operator;
    case 'protocol':
      return CompletionItemKind.Module;
    default:
      return sort satisfies never;
  }
}
