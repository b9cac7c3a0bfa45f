import type { ProtocolStatement, StatementOf } from '@curette/grammar';
import type { PreviewSubject, PreviewView } from '@curette/shared';
import type { FileFacts } from '../analysis/analysis.ts';
import type { CaseFacts } from '../analysis/cases/case.ts';
import { placeOf } from '../analysis/model.ts';
import type { ProtocolFacts } from '../analysis/protocol/protocol.ts';
import type { FileId } from '../problems/problem.ts';
import { calendarOf, checklistOf } from './checklist.ts';
import { checklistHtml } from './checklist-html.ts';
import { missingSheetHtml } from './missing-sheet.ts';
import { problemsHtml } from './problems-html.ts';
import { titleOf } from './sheet-head.ts';
import { positionOf } from './text.ts';
import { timelineOf } from './timeline.ts';
import { timelineHtml } from './timeline-html.ts';
import { trayOf } from './tray.ts';
import { trayHtml } from './tray-html.ts';

/** What somebody who looks at a file beside its text wants to see. */
export interface PreviewAsked {
  readonly view: PreviewView;
  /** names of what was chosen; a case brings its own protocol with it */
  readonly protocol?: string | undefined;
  readonly case?: string | undefined;
  /** where the cursor is, counted from 1: a protocol or case around it goes before what was chosen */
  readonly line?: number | undefined;
}

/** A page made from a file, and what else can be chosen in it. */
export interface Preview {
  /** a whole page that needs nothing else */
  readonly html: string;
  readonly title: string;
  readonly protocol: string | null;
  readonly case: string | null;
  readonly protocols: readonly PreviewSubject[];
  readonly cases: readonly PreviewSubject[];
  /** the file that declares what is shown: the lines that the page's parts stand on are its */
  readonly declaredIn: FileId;
}

/**
 * The page about a protocol, or about a case of it, that a file declares.
 * @param factsOf gives the facts of the files it uses
 */
export function previewOf(
  file: FileFacts,
  asked: PreviewAsked,
  factsOf: (id: FileId) => FileFacts | undefined,
): Preview {
  const protocols = file.protocols.map((protocol) => ({ protocol, subject: subjectOf(file, protocol.statement) }));
  const cases = file.cases.map((ofCase) => ({ ofCase, subject: subjectOf(file, ofCase.statement) }));
  const shown = chosen(protocols, cases, asked);
  const listed = { protocols: protocols.map(({ subject }) => subject), cases: cases.map(({ subject }) => subject) };
  if (!shown)
    return {
      html: missingSheetHtml(asked.view, fileTitle(file), cases[0]?.ofCase),
      title: fileTitle(file),
      protocol: null,
      case: null,
      ...listed,
      declaredIn: file.file.id,
    };
  const { protocol, ofCase } = shown;
  return {
    html: pageOf(asked.view, file, protocol, factsOf, ofCase),
    title: titleOf(protocol.statement),
    protocol: protocol.statement.name?.text ?? '',
    case: ofCase?.statement.name?.text ?? null,
    ...listed,
    declaredIn: protocol.context.module.id,
  };
}

/** The cases in a file that are of a protocol, by the file that declares that and by its name. */
export function casesOf(
  file: FileFacts | undefined,
  declaredIn: FileId,
  protocol: string,
): readonly Pick<PreviewSubject, 'name' | 'title'>[] {
  return (file?.cases ?? []).flatMap(({ of, statement }) =>
    of?.module.id === declaredIn && of.statement.name?.text === protocol && statement.name
      ? [{ name: statement.name.text, title: titleOf(statement) }]
      : [],
  );
}

interface Shown {
  readonly protocol: ProtocolFacts;
  readonly ofCase: CaseFacts | undefined;
}

/** What the cursor is in; else what was chosen; else the first that there is. */
function chosen(
  protocols: readonly { readonly protocol: ProtocolFacts; readonly subject: PreviewSubject }[],
  cases: readonly { readonly ofCase: CaseFacts; readonly subject: PreviewSubject }[],
  asked: PreviewAsked,
): Shown | undefined {
  const here = ({ subject }: { readonly subject: PreviewSubject }) =>
    asked.line !== undefined && subject.from <= asked.line && asked.line <= subject.to;
  const named =
    (name: string | undefined) =>
    ({ subject }: { readonly subject: PreviewSubject }) =>
      name !== undefined && subject.name === name;
  const ofCase = (one: { readonly ofCase: CaseFacts } | undefined): Shown | undefined =>
    one?.ofCase.protocol && { protocol: one.ofCase.protocol, ofCase: one.ofCase };
  const ofAll = (one: { readonly protocol: ProtocolFacts } | undefined): Shown | undefined =>
    one && { protocol: one.protocol, ofCase: undefined };
  return (
    ofAll(protocols.find(here)) ??
    ofCase(cases.find(here)) ??
    ofCase(cases.find(named(asked.case))) ??
    ofAll(protocols.find(named(asked.protocol))) ??
    ofAll(protocols[0]) ??
    ofCase(cases.find((one) => one.ofCase.protocol !== undefined))
  );
}

function pageOf(
  view: PreviewView,
  file: FileFacts,
  protocol: ProtocolFacts,
  factsOf: (id: FileId) => FileFacts | undefined,
  ofCase: CaseFacts | undefined,
): string {
  switch (view) {
    case 'checklist':
      return checklistHtml(checklistOf(file, protocol, factsOf, ofCase));
    case 'timeline':
      return timelineHtml(timelineOf(file, protocol, factsOf, calendarOf(ofCase), ofCase));
    case 'tray':
      return trayHtml(trayOf(file, protocol, factsOf, ofCase));
    case 'problems':
      return problemsHtml(checklistOf(file, protocol, factsOf, ofCase));
    default:
      return view satisfies never;
  }
}

type Declaring = ProtocolStatement | StatementOf<'case'>;

function subjectOf({ file }: FileFacts, statement: Declaring): PreviewSubject {
  const place = positionOf(file, placeOf(file.id, statement, { start: 0, end: statement.length }));
  return {
    name: statement.name?.text ?? '',
    title: titleOf(statement),
    from: place?.line ?? 1,
    to: place?.endLine ?? 1,
  };
}

function fileTitle({ file }: FileFacts): string {
  return decodeURIComponent(file.id.slice(file.id.lastIndexOf('/') + 1));
}
