import type { CaseStatement } from '@curette/grammar';
import { caseWithoutOption } from '../../problems/case_without_option.ts';
import { type Place, type Problem, problemAt, type Report } from '../../problems/problem.ts';
import { guard } from '../guard.ts';
import { placeOf } from '../model.ts';
import type { Module } from '../names/module.ts';
import { forEachFlow } from '../protocol/flow.ts';
import { checkProtocol, type ProtocolFacts } from '../protocol/protocol.ts';
import type { FirstVisit } from '../protocol/visit-dates.ts';
import { type CaseLine, filledBy, readLines } from './lines.ts';
import type { CasesProtocol } from './of.ts';
import { checkPatient } from './patient.ts';
import { checkStart } from './start.ts';

/** All that the checker found out about a case. */
export interface CaseFacts {
  readonly statement: CaseStatement;
  readonly module: Module;
  /** the protocol as it is for everybody; undefined when there is none of that name */
  readonly of: CasesProtocol | undefined;
  /** the protocol with the facts of the case in it */
  readonly protocol: ProtocolFacts | undefined;
  /** the day of the first visit, if the case says one */
  readonly start: { readonly first: FirstVisit; readonly given: string } | undefined;
  /** each at a line of the case */
  readonly problems: readonly Problem[];
  /** what in its words could lead to a person */
  readonly identifying: readonly Problem[];
  readonly lines: readonly CaseLine[];
  /** what was found out about which line a problem hangs on, by the problem's words */
  readonly hangs: ReadonlyMap<string, CaseLine | undefined>;
}

/**
 * Checks a case: its protocol anew, with what the case says in place of ranges and open findings. What the protocol has already is not
 * told again; the rest is told at the line of the case on which it hangs.
 * @param previous what an earlier version gave; it makes the answer faster, never different
 */
export function checkCase(
  module: Module,
  statement: CaseStatement,
  of: CasesProtocol | undefined,
  previous: CaseFacts | undefined,
): CaseFacts {
  const problems: Problem[] = [];
  const report: Report = (problem) => problems.push(problem);
  const nothing = { statement, module, of, problems, identifying: [] };
  if (!of) return { ...nothing, protocol: undefined, start: undefined, lines: [], hangs: new Map() };
  const pass = (name: string, run: () => void) => guard(module.id, statement, name, report, run);

  const sameLines =
    previous?.statement === statement && previous.module === module && previous.of?.facts.context === of.facts.context;
  const lines = readLines(module, statement, of, report);
  const kept = sameLines ? previous?.protocol?.context.filled : undefined;
  const filled = kept ?? filledBy(lines, of.facts.context.things);
  const protocol = checkProtocol(of.module, of.statement, of.text, previous?.protocol, filled);

  pass('who the patient is', () => checkPatient(statement, module, of, protocol, lines, report));
  pass('findings of the case', () => checkOptions(statement, module, protocol, lines, report));
  let start: CaseFacts['start'];
  pass('dates of the case', () => {
    start = checkStart(module, statement, of, protocol, report);
  });

  const hangs = new Map<string, CaseLine | undefined>();
  pass('what the case makes of its protocol', () => {
    const known = new Set(of.facts.problems.map(wordsOf));
    const without = (line: CaseLine): ReadonlySet<string> => {
      const rest = filledBy(
        lines.filter((other) => other !== line),
        of.facts.context.things,
      );
      return new Set(checkProtocol(of.module, of.statement, of.text, undefined, rest).problems.map(wordsOf));
    };
    const found = new Map<CaseLine, ReadonlySet<string>>();
    const lineOf = (words: string): CaseLine | undefined => {
      if (previous?.hangs.has(words) && previous.lines.length === lines.length) {
        const old = previous.hangs.get(words);
        const at = old ? previous.lines.indexOf(old) : -1;
        if (!old || sameLine(old, lines[at])) return old && lines[at];
      }
      if (lines.length > MOST_TRIED) return undefined;
      return lines.find((line) => {
        const left = found.get(line) ?? without(line);
        found.set(line, left);
        return !left.has(words);
      });
    };
    for (const problem of protocol.problems) {
      const words = wordsOf(problem);
      if (known.has(words) || BY_ITSELF.has(problem.code)) continue;
      const line = lineOf(words);
      hangs.set(words, line);
      report({
        ...problem,
        place: line?.place ?? placeOf(module.id, statement, statement.name ?? statement.head),
        related: [{ place: problem.place, message: 'the line of the protocol' }, ...problem.related],
        // A case does not change its protocol: what would mend that is offered there.
        mends: [],
        tries: [],
      });
    }
  });
  return { ...nothing, protocol, start, lines, hangs };
}

/** What the protocol has for everybody and the case has as well. */
export function remainingProblems({ of, protocol }: CaseFacts): readonly Problem[] {
  const known = new Set(of?.facts.problems.map(wordsOf));
  return (protocol?.problems ?? []).filter((problem) => !BY_ITSELF.has(problem.code) && known.has(wordsOf(problem)));
}

/** More facts than this are not left out one by one to find what a problem hangs on: it is told at the case's name. */
const MOST_TRIED = 40;

/** What follows from leaving options out, and is as it should be. */
const BY_ITSELF: ReadonlySet<string> = new Set(['unreachable_step', 'never_used']);

/** Two problems with the same words at the same place are one. */
function wordsOf({ code, rule, severity, place, message }: Problem): string {
  return `${code}|${rule ?? ''}|${severity}|${place.file}|${place.statement}|${place.span.start}|${message}`;
}

function sameLine(a: CaseLine, b: CaseLine | undefined): boolean {
  return b !== undefined && a.key === b.key && a.place.statement === b.place.statement;
}

/** A decision that says nothing of what the case finds, and one that the case leaves open because nothing reads on. */
function checkOptions(
  statement: CaseStatement,
  module: Module,
  protocol: ProtocolFacts,
  lines: readonly CaseLine[],
  report: Report,
): void {
  for (const visit of protocol.visits)
    forEachFlow(visit.items, (flow) => {
      if (flow.type !== 'decide' || flow.branches.length > 0 || flow.call) return;
      const items = flow.statement.body?.items ?? [];
      if (!items.some((item) => item.type === 'option')) return;
      const names = new Set(flow.findings.map(({ name }) => name));
      const line = lines.find((one) => one.type === 'finding' && names.has(one.finding));
      const place: Place = line?.place ?? placeOf(module.id, statement, statement.name ?? statement.head);
      report(
        problemAt(caseWithoutOption, place, {
          label: flow.label,
          decision: { file: flow.file, statement: flow.statement.id, span: flow.statement.head },
        }),
      );
    });
}
