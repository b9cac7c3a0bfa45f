import type { Expr, Name, Statement } from '@curette/grammar';
import { optionUnknown } from '../../problems/option_unknown.ts';
import { problemAt, type Report } from '../../problems/problem.ts';
import { unknownName } from '../../problems/unknown_name.ts';
import { placeOf, type SlotModel } from '../model.ts';
import { type Module, visibleNames } from '../names/module.ts';
import { entryNamed, findingNamed, kindNamed } from '../names/resolve.ts';
import { isConditions } from './findings.ts';

/** Whether a finding is declared and can be what a rule says; reported when not. */
export function checkFinding(
  module: Module,
  statement: Statement,
  name: Name,
  values: readonly Name[],
  report: Report,
): void {
  const finding = findingNamed(module, name.text);
  if (!finding) {
    const place = placeOf(module.id, statement, name);
    report(
      problemAt(unknownName, place, {
        name: name.text,
        wanted: 'finding',
        candidates: visibleNames(module, 'findings'),
        library: module.elsewhere(['findings'], name.text),
        place,
      }),
    );
    return;
  }
  for (const value of values) {
    const place = placeOf(module.id, statement, value);
    if (!finding.values.has(value.text)) report(problemAt(optionUnknown, place, { value: value.text, finding, place }));
  }
}

/** What a condition says is found is something that can be found. */
export function checkFindingsAsked(
  module: Module,
  statement: Statement,
  condition: Expr | undefined,
  slots: readonly SlotModel[],
  report: Report,
): void {
  for (const { subject, name } of isConditions(condition)) {
    const [asked, ...more] = subject.type === 'path' ? subject.names : [];
    if (!asked || !name || more.length > 0 || slots.some((slot) => slot.name === asked.text)) continue;
    if (kindNamed(module, asked.text) || entryNamed(module, asked.text)) continue;
    if (findingNamed(module, asked.text)) checkFinding(module, statement, asked, [name], report);
  }
}
