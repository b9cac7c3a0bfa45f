import type { EntryStatement } from '@curette/grammar';
import { problemAt, type Report } from '../../problems/problem.ts';
import { wrongKind } from '../../problems/wrong_kind.ts';
import { type Contraindication, type Entry, placeOf } from '../model.ts';
import type { Module } from '../names/module.ts';
import { kindNamed } from '../names/resolve.ts';
import { readContraindication } from './contraindication.ts';
import { kindOrReport } from './kind.ts';
import { isKind } from './subkind.ts';
import { readValues } from './value.ts';

/** Resolves a catalogue entry; undefined, and reported, when its kind is not known. */
export function resolveEntry(
  module: Module,
  statement: EntryStatement,
  name: string,
  report: Report,
): Entry | undefined {
  const group = kindOrReport(module, statement, statement.group, report);
  const kind = statement.kind ? kindOrReport(module, statement, statement.kind, report) : group;
  if (group && kind && !isKind(kind, group) && statement.kind)
    report(
      problemAt(wrongKind, placeOf(module.id, statement, statement.kind), {
        thing: name,
        is: kind.label,
        wanted: group.label,
        asked: `an entry that begins with "${statement.group.text}"`,
      }),
    );
  if (!kind) return undefined;
  const items = statement.body?.items ?? [];
  const contraindications: Contraindication[] = [...kind.contraindications];
  for (const item of items)
    if (item.type === 'contraindicated' || item.type === 'caution') {
      const contraindication = readContraindication(module, item, report);
      if (contraindication) contraindications.push(contraindication);
    }
  return {
    file: module.id,
    statement,
    name,
    label: statement.label?.value ?? name.replaceAll('_', ' '),
    kind,
    values: readValues(module, items, kind, (other) => kindNamed(module, other), report),
    contraindications,
  };
}
