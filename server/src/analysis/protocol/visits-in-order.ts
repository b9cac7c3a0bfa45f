import type { ProtocolStatement, StatementOf } from '@curette/grammar';

/** A visit, and the waits between the one before and it; of the first those that stand before it. */
export interface VisitInOrder {
  readonly visit: StatementOf<'visit'>;
  readonly waits: readonly StatementOf<'wait'>[];
}

export function visitsInOrder(statement: ProtocolStatement): readonly VisitInOrder[] {
  const visits: VisitInOrder[] = [];
  let waits: StatementOf<'wait'>[] = [];
  for (const item of statement.body?.items ?? []) {
    if (item.type === 'wait') waits.push(item);
    if (item.type !== 'visit') continue;
    visits.push({ visit: item, waits });
    waits = [];
  }
  return visits;
}

/** What a visit is called: its words, or its name as a person says it. */
export function visitLabel(visit: StatementOf<'visit'>): string {
  return visit.label?.value ?? visit.name?.text.replaceAll('_', ' ') ?? 'the visit';
}
