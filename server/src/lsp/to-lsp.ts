import { DiagnosticSeverity, type Range } from 'vscode-languageserver/node';
import type { TextDocument } from 'vscode-languageserver-textdocument';
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
