import type { ProtocolStatement, Statement, StatementOf } from '@curette/grammar';
import type { Checklist, ChecklistProblem } from '@curette/shared';
import type { FileFacts } from '../analysis/analysis.ts';
import { type CaseFacts, remainingProblems } from '../analysis/cases/case.ts';
import type { Module } from '../analysis/names/module.ts';
import type { ProtocolFacts } from '../analysis/protocol/protocol.ts';
import { isLibrary } from '../analysis/use-path.ts';
import { caseCautioned } from '../problems/case_cautioned.ts';
import type { Problem } from '../problems/problem.ts';
import { fileName, plain, positionOf, sentence } from './text.ts';

/** What every sheet made from a protocol says of itself first. */
export type ProtocolSheet = Pick<Checklist, 'name' | 'file' | 'title' | 'version' | 'status' | 'fit' | 'errors'>;

/**
 * The head of a sheet, and all that is wrong with what it is made from.
 * @param file the file that was asked about: it declares the protocol, or the case
 * @param factsOf gives the facts of the files it uses: a protocol that stands on a faulty file is not fit for use either
 * @param ofCase the case whose facts are in the protocol, declared in `file`
 */
export function sheetHeadOf(
  file: FileFacts,
  protocol: ProtocolFacts,
  factsOf: (id: string) => FileFacts | undefined,
  ofCase: CaseFacts | undefined,
): { readonly sheet: ProtocolSheet; readonly problems: ChecklistProblem[] } {
  const { statement } = protocol;
  const problems = problemsOf(file, protocol, factsOf, ofCase);
  const errors = problems.filter((problem) => problem.severity === 'error').length;
  const title = titleOf(statement);
  const status = firstOf(statement, 'status')?.status?.text;
  return {
    sheet: {
      name: (ofCase ? ofCase.statement : statement).name?.text ?? '',
      file: fileName(file.file.id),
      title: ofCase ? `${title}: ${titleOf(ofCase.statement)}` : title,
      version: firstOf(statement, 'version')?.version?.text ?? null,
      status: status === undefined ? null : plain(status),
      fit: errors === 0,
      errors,
    },
    problems,
  };
}

/** A protocol or a case as it is called. */
export function titleOf({ label, name, type }: ProtocolStatement | StatementOf<'case'>): string {
  return label?.value ?? sentence(plain(name?.text ?? (type === 'case' ? 'a case' : type)));
}

/** The first line of a sort in a protocol's head. */
export function firstOf<T extends Statement['type']>(
  { body }: ProtocolStatement,
  type: T,
): Extract<StatementOf<T>, Statement> | undefined {
  return body?.items.find((item): item is Extract<StatementOf<T>, Statement> => item.type === type);
}

/**
 * What the checker found: in this protocol, in the file around it, and in the files it uses; not in its neighbours. Of a case that is
 * what it found in the case, not what it found in the protocol for others.
 */
function problemsOf(
  file: FileFacts,
  protocol: ProtocolFacts,
  factsOf: (id: string) => FileFacts | undefined,
  ofCase: CaseFacts | undefined,
): ChecklistProblem[] {
  const used = usedFiles(ofCase?.module ?? protocol.context.module)
    .map(factsOf)
    .filter((facts) => facts !== undefined);
  const elsewhere = new Set([
    ...file.protocols.flatMap((other) => (other.statement === protocol.statement ? [] : other.problems)),
    ...(ofCase?.of?.facts.problems ?? []),
    ...[file, ...used].flatMap(({ cases }) =>
      cases.flatMap((other) =>
        other.statement === ofCase?.statement ? [] : [...other.problems, ...other.identifying],
      ),
    ),
  ]);
  const here = fileName(file.file.id);
  const nearer = (a: ChecklistProblem, b: ChecklistProblem) => Number(a.file !== here) - Number(b.file !== here);
  // What asks for care in a case stands on its sheet already, under that title.
  const own = (facts: FileFacts) =>
    facts.problems.filter((problem) => !elsewhere.has(problem) && problem.code !== caseCautioned.code);
  const remaining = (ofCase ? remainingProblems(ofCase) : []).flatMap((problem) => {
    const facts = problem.place.file === file.file.id ? file : factsOf(problem.place.file);
    return facts ? [problemOf(problem, facts)] : [];
  });
  return [
    ...own(file).map((problem) => problemOf(problem, file)),
    ...remaining,
    ...used.flatMap((facts) =>
      own(facts)
        .filter(({ severity }) => severity !== 'advice')
        .map((problem) => problemOf(problem, facts)),
    ),
  ].sort((a, b) => RANK[a.severity] - RANK[b.severity] || nearer(a, b) || (a.line ?? 0) - (b.line ?? 0));
}

const RANK = { error: 0, warning: 1, advice: 2 } as const;

/** The institution's own files that a protocol stands on. The shipped library is tested on its own. */
function usedFiles(module: Module): string[] {
  return module.closure.map((scope) => scope.id).filter((id) => id !== module.id && !isLibrary(id));
}

function problemOf(problem: Problem, facts: FileFacts): ChecklistProblem {
  return {
    severity: problem.severity,
    title: problem.title,
    message: problem.message,
    file: fileName(facts.file.id),
    line: positionOf(facts.file, problem.place)?.line ?? null,
  };
}
