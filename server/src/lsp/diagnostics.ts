import { sha256 } from '@noble/hashes/sha2';
import { bytesToHex } from '@noble/hashes/utils';
import {
  type DiagnosticServerCancellationData,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
  type Diagnostic as LspDiagnostic,
  ResponseError,
  type WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver';
import { settingsFileOf } from '../analysis/settings.ts';
import type { Checked } from '../ide/checked.ts';
import { type Diagnostic, diagnostics } from '../ide/diagnostics.ts';
import type { FileId } from '../problems/problem.ts';
import type { Session } from './session.ts';
import { toRange, toSeverity } from './to-lsp.ts';
import type { WorkspaceCheck } from './workspace-check.ts';

/** Answers an editor that asks for problems: of one document, of every file of the workspace. */
export function answerDiagnostics(session: Session, check: WorkspaceCheck): void {
  const { connection, workspace, guard, client } = session;

  connection.languages.diagnostics.on(({ textDocument: { uri }, previousResultId }, token) => {
    const answer = guard.answer('problems', token, (): DocumentDiagnosticReport => {
      const id = session.idOf(uri);
      const items = [...diagnosticsOf(session, workspace, id)];
      const resultId = nameOf(items);
      const related = client.relatedDocuments ? settingsReport(session, id) : {};
      return resultId === previousResultId
        ? { kind: DocumentDiagnosticReportKind.Unchanged, resultId, ...related }
        : { kind: DocumentDiagnosticReportKind.Full, resultId, items, ...related };
    });
    if (!(answer instanceof ResponseError)) return answer;
    return new ResponseError<DiagnosticServerCancellationData>(answer.code, answer.message, { retriggerRequest: true });
  });

  connection.languages.diagnostics.onWorkspace(async ({ previousResultIds }, token, progress, partial) => {
    const before = new Map(previousResultIds.map(({ uri, value }) => [uri, value]));
    const items: WorkspaceDocumentDiagnosticReport[] = [];
    const take = (report: WorkspaceDocumentDiagnosticReport) => {
      if (partial) partial.report({ items: [report] });
      else items.push(report);
    };
    const seen = new Set<string>();
    await check.all(token, progress, (uri, version, list) => {
      seen.add(uri);
      const resultId = nameOf(list);
      take(
        before.get(uri) === resultId
          ? { kind: DocumentDiagnosticReportKind.Unchanged, uri, version, resultId }
          : { kind: DocumentDiagnosticReportKind.Full, uri, version, resultId, items: [...list] },
      );
    });
    // What is there no more has no problems; an editor that was told of some would keep them.
    if (!token.isCancellationRequested)
      for (const uri of before.keys())
        if (!seen.has(uri)) take({ kind: DocumentDiagnosticReportKind.Full, uri, version: null, items: [] });
    return { items };
  });
}

/** Settings are open in no editor of ours; what is wrong with those that count for a document is told with it. */
function settingsReport(session: Session, id: FileId): Pick<DocumentDiagnosticReport, 'relatedDocuments'> {
  const settings = settingsFileOf(session.workspace.snapshot(), id)?.id;
  const uri = settings === undefined ? undefined : session.uriOf(settings);
  if (settings === undefined || uri === undefined) return {};
  const items = [...diagnosticsOf(session, session.workspace, settings)];
  return { relatedDocuments: { [uri]: { kind: DocumentDiagnosticReportKind.Full, resultId: nameOf(items), items } } };
}

/** Reports that say the same have the same name, whichever server made them. */
function nameOf(items: readonly LspDiagnostic[]): string {
  return bytesToHex(sha256(JSON.stringify(items)));
}

/** The problems of a file as the editor shows them. */
export function diagnosticsOf(session: Session, checked: Checked, id: FileId): readonly LspDiagnostic[] {
  return diagnostics(checked, id).map((diagnostic) => toDiagnostic(session, id, diagnostic));
}

export function toDiagnostic(session: Session, id: FileId, diagnostic: Diagnostic): LspDiagnostic {
  const { name, message, related } = diagnostic;
  const result: LspDiagnostic = {
    range: toRange(session.linesOf(id), diagnostic),
    severity: toSeverity(diagnostic.severity),
    code: name,
    source: 'curette',
    message,
  };
  const { problemPage } = session.client;
  if (problemPage !== undefined) result.codeDescription = { href: problemPage.replaceAll('{code}', name) };
  if (session.client.related && related.length > 0)
    result.relatedInformation = related.flatMap((place) => {
      const uri = session.uriOf(place.file);
      return uri === undefined
        ? []
        : [{ location: { uri, range: toRange(session.linesOf(place.file), place) }, message: place.message }];
    });
  return result;
}
