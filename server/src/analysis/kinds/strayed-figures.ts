import type { ValueStatement } from '@curette/grammar';
import { figureOutsideGroup } from '../../problems/figure_outside_group.ts';
import { figureOutsideSet } from '../../problems/figure_outside_set.ts';
import { problemAt, type Report } from '../../problems/problem.ts';
import { locate } from '../locate.ts';
import { type Kind, placeOf, type SetNote } from '../model.ts';
import type { Module } from '../names/module.ts';

/** A set of figures states a property that takes no value from its group. */
export function reportForeign(
  module: Module,
  item: ValueStatement,
  { label, group }: SetNote,
  kind: Kind,
  report: Report,
): void {
  const place = placeOf(module.id, item, item.name);
  const what = `${item.name.text.replaceAll('_', ' ')} of ${kind.label}`;
  const properties = propertiesFrom(kind, group);
  report(problemAt(figureOutsideGroup, place, { what, set: label, group, properties, place, name: item.name.text }));
}

/** An entry, a given thing or a case states by itself what comes from a set of figures. */
export function reportStrayed(module: Module, item: ValueStatement, group: string, report: Report): void {
  const file = module.file();
  const located = locate(file.tree, item.id);
  const owner = located?.parent?.statement;
  const entry = owner?.type === 'entry' ? owner.name?.text : undefined;
  const from = located && located.start + item.head.start;
  const line =
    from === undefined ? '' : file.text.slice(from, from + item.head.end - item.head.start).replace(/\s+/g, ' ');
  const sets = [...module.scope.figures.values()].filter((set) => set.group?.text === group);
  report(
    problemAt(figureOutsideSet, placeOf(module.id, item, item.name), {
      property: item.name.text,
      group,
      file: module.id,
      statement: item.id,
      moves: sets.flatMap((set) => {
        if (entry === undefined || line === '') return [];
        const own = set.body?.items.find((other) => other.type === 'figure' && other.name.text === entry);
        return [
          {
            label: set.label?.value ?? set.name?.text ?? '',
            to: own?.id ?? set.id,
            line: own ? line : `${entry} { ${line} }`,
          },
        ];
      }),
    }),
  );
}

/** The properties of a kind that take their value from a group. */
export function propertiesFrom(kind: Kind, group: string): readonly string[] {
  return [...kind.properties.values()].filter(({ from }) => from === group).map(({ name }) => name);
}
