import type { CaseStatement, StatementOf } from '@curette/grammar';
import { caseDayClosed } from '../../problems/case_day_closed.ts';
import { caseStart } from '../../problems/case_start.ts';
import { duplicateName } from '../../problems/duplicate_name.ts';
import { problemAt, type Report } from '../../problems/problem.ts';
import { writeDate } from '../calendar/date.ts';
import { closedDaysOf, firstOpenDay } from '../calendar/open-days.ts';
import { placeOf } from '../model.ts';
import type { Module } from '../names/module.ts';
import type { ProtocolFacts } from '../protocol/protocol.ts';
import { type FirstVisit, readFirstVisit, visitDates } from '../protocol/visit-dates.ts';
import { visitLabel } from '../protocol/visits-in-order.ts';
import type { CasesProtocol } from './of.ts';

/** The day of the first visit that a case says; it exists, and each visit that follows from it has an open day. */
export function checkStart(
  module: Module,
  statement: CaseStatement,
  of: CasesProtocol,
  protocol: ProtocolFacts,
  report: Report,
): { readonly first: FirstVisit; readonly given: string } | undefined {
  const [line, ...more] = (statement.body?.items ?? []).filter(
    (item): item is StatementOf<'start'> => item.type === 'start',
  );
  if (!line?.date) return undefined;
  for (const other of more)
    report(
      problemAt(duplicateName, placeOf(module.id, other, other.date ?? other.head), {
        name: 'start',
        first: placeOf(module.id, line, line.date),
        both: true,
      }),
    );
  const place = placeOf(module.id, line, line.date);
  const first = readFirstVisit(line.date.text);
  if (first?.type !== 'date') {
    report(problemAt(caseStart, place, { written: line.date.text }));
    return undefined;
  }
  for (const { visit, window, trouble } of visitDates(of.module, protocol.statement, first, module.settings)) {
    if ((trouble !== 'closed' && trouble !== 'no open day') || !window) continue;
    const next = trouble === 'closed' ? firstOpenDay(closedDaysOf(module.settings), first.date, undefined) : undefined;
    report(
      problemAt(caseDayClosed, place, {
        visit: visitLabel(visit),
        first: trouble === 'closed',
        from: window.earliest,
        to: window.latest,
        next: next && writeDate(next),
        place,
        declared: placeOf(of.module.id, visit, visit.name ?? visit.head),
      }),
    );
  }
  return { first, given: line.date.text };
}
