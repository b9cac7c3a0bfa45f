import type { FigureStatement, FiguresStatement, Statement } from '@curette/grammar';
import { figureOutsideGroup } from '../../problems/figure_outside_group.ts';
import { problemAt, type Report } from '../../problems/problem.ts';
import { unknownName } from '../../problems/unknown_name.ts';
import { type FigureLine, type FigureSet, type Kind, placeOf, type SetNote } from '../model.ts';
import { lookUp, type Module, visibleNames } from '../names/module.ts';
import { checkRepeatedNames } from '../names/repeated.ts';
import { entryNamed, kindNamed } from '../names/resolve.ts';
import { propertiesFrom } from './strayed-figures.ts';
import { readValues } from './value.ts';

/** Resolves a set of figures: what it says of each entry and each kind, checked against what the kind declares. */
export function resolveFigures(module: Module, statement: FiguresStatement, name: string, report: Report): FigureSet {
  const group = statement.group?.text;
  const note: SetNote = {
    name,
    label: statement.label?.value ?? name.replaceAll('_', ' '),
    group: group ?? '',
  };
  const items = (statement.body?.items ?? []).filter((item) => item.type === 'figure');
  const subjects = items.flatMap((item) => {
    const subject = subjectOf(module, item, report);
    return subject ? [{ item, ...subject }] : [];
  });
  const known = group !== undefined && (declaresGroup(module, group) || subjects.some(({ kind }) => has(kind, group)));
  if (!known) reportUnknownGroup(module, statement, report);
  const lines = new Map<string, FigureLine>();
  for (const { item, kind, key } of subjects) {
    if (!known) continue;
    const own = item.body?.items ?? [];
    checkRepeatedNames(module.id, named(own, 'value'), report);
    if (!has(kind, group)) {
      const place = placeOf(module.id, item, item.name);
      const of = { what: item.name.text.replaceAll('_', ' '), set: note.label, group, properties: [], place };
      report(problemAt(figureOutsideGroup, place, { ...of, name: item.name.text }));
      continue;
    }
    const values = readValues(module, own, kind, (other) => kindNamed(module, other), report, note);
    if (!lines.has(key)) lines.set(key, { file: module.id, statement: item, values });
  }
  checkRepeatedNames(module.id, named(items, 'figure'), report);
  return { ...note, file: module.id, statement, lines };
}

/** Tells an entry or a kind from all others: the two share their names. */
export function figureKey({ file, name }: { readonly file: string; readonly name: string }): string {
  return `${file} ${name}`;
}

function has(kind: Kind, group: string | undefined): group is string {
  return group !== undefined && propertiesFrom(kind, group).length > 0;
}

function named(items: readonly Statement[], type: 'value' | 'figure') {
  return items.flatMap((item) =>
    (item.type === 'value' || item.type === 'figure') && item.type === type
      ? [{ name: item.name, statement: item }]
      : [],
  );
}

/** The kind that a line of a set speaks of, itself or that of the entry. */
function subjectOf(
  module: Module,
  item: FigureStatement,
  report: Report,
): { readonly kind: Kind; readonly key: string } | undefined {
  const entry = entryNamed(module, item.name.text);
  const kind = entry?.kind ?? kindNamed(module, item.name.text);
  if (kind) return { kind, key: figureKey(entry ?? kind) };
  const place = placeOf(module.id, item, item.name);
  report(
    problemAt(unknownName, place, {
      name: item.name.text,
      wanted: 'entry or kind',
      candidates: [...visibleNames(module, 'entries'), ...visibleNames(module, 'kinds')],
      library: module.elsewhere(['entries', 'kinds'], item.name.text),
      place,
    }),
  );
  return undefined;
}

function declaresGroup(module: Module, group: string): boolean {
  return lookUp(module, 'groups', group) !== undefined;
}

function reportUnknownGroup(module: Module, statement: FiguresStatement, report: Report): void {
  const { group } = statement;
  if (!group) return;
  const place = placeOf(module.id, statement, group);
  report(
    problemAt(unknownName, place, {
      name: group.text,
      wanted: 'group of sets of figures',
      candidates: visibleNames(module, 'groups'),
      library: module.elsewhere(['groups'], group.text),
      place,
    }),
  );
}
