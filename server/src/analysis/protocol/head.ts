import type { Name, ProtocolStatement, Statement } from '@curette/grammar';
import { missingHead } from '../../problems/missing_head.ts';
import { problemAt, type Report } from '../../problems/problem.ts';
import { undecidedNeed } from '../../problems/undecided.ts';
import { unknownName } from '../../problems/unknown_name.ts';
import { wrongWord } from '../../problems/wrong_word.ts';
import { checkGap } from '../kinds/duration.ts';
import { readQuantity } from '../kinds/quantity.ts';
import { placeOf } from '../model.ts';
import type { Module } from '../names/module.ts';
import { checkRepeatedNames } from '../names/repeated.ts';

const STATUSES: readonly string[] = ['draft', 'in_review', 'approved', 'retired'];

/** Version, status, owner and review are stated and make sense; the waits between visits are times. */
export function checkHead(module: Module, statement: ProtocolStatement, report: Report): void {
  const items = statement.body?.items ?? [];
  const has = (type: Statement['type']) => items.some((item) => item.type === type);
  const missing = (['version', 'status', 'owner', 'visit'] as const).filter((type) => !has(type));
  if (missing.length > 0)
    report(
      problemAt(missingHead, placeOf(module.id, statement, statement.name ?? statement.head), {
        missing,
        file: module.id,
        statement: statement.id,
        first: items[0]?.id,
      }),
    );
  const visits = items.flatMap((item) =>
    item.type === 'visit' && item.name ? [{ name: item.name, statement: item }] : [],
  );
  checkRepeatedNames(module.id, visits, report);
  for (const item of items) {
    if (item.type === 'follows' && item.protocol) checkProtocolName(module, item, item.protocol, report);
    if (item.type === 'status' && item.status && !STATUSES.includes(item.status.text)) {
      const place = placeOf(module.id, item, item.status);
      report(problemAt(wrongWord, place, { what: 'status', word: item.status.text, allowed: STATUSES, place }));
    }
    if (item.type === 'review' && item.every) readQuantity(module, item, item.every, report);
    if (item.type !== 'wait') continue;
    if (item.duration) checkGap(module, item, item.duration, report);
    else if (item.until)
      report(
        problemAt(undecidedNeed, placeOf(module.id, item, item.head), {
          what: 'how long it is to the next visit',
          missing: 'a time (wait 4..6 mo)',
          rule: undefined,
        }),
      );
  }
}

/** A protocol that is followed, or that a case is of, is declared in this file or in one that it uses. */
export function checkProtocolName(module: Module, statement: Statement, name: Name, report: Report): void {
  if (module.visible.some((scope) => scope.protocols.has(name.text))) return;
  const place = placeOf(module.id, statement, name);
  report(
    problemAt(unknownName, place, {
      name: name.text,
      wanted: 'protocol',
      candidates: module.visible.flatMap((scope) => [...scope.protocols]),
      library: undefined,
      place,
    }),
  );
}
