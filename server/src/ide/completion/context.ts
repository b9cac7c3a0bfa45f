import type { FileFacts } from '../../analysis/analysis.ts';
import type { Finding, Kind, Property } from '../../analysis/model.ts';
import type { Module } from '../../analysis/names/module.ts';
import { findingNamed, kindNamed } from '../../analysis/names/resolve.ts';
import { once } from '../../analysis/once.ts';
import type { Thing } from '../../analysis/protocol/things.ts';
import type { Checked } from '../checked.ts';
import type { Bearer } from '../meaning.ts';
import { type Standing, standingInside } from '../states-at.ts';
import { type Surroundings, scopeAt, surroundingsOf } from '../surroundings.ts';
import { type CompletionItem, item, roleItems } from './items.ts';
import type { Line } from './line.ts';

/** The line that is being written and what may be named in it. */
export interface Context {
  readonly checked: Checked;
  readonly module: Module;
  readonly line: Line;
  readonly around: Surroundings;
  /** what a step may be done with: the protocol's things, or a procedure's slots */
  readonly things: () => readonly Thing[];
  readonly thing: (name: string) => Thing | undefined;
  /** how things stand where the line is; undefined where no run gets to */
  readonly standing: () => Standing | undefined;
  /** a finding that can be named here */
  readonly finding: (name: string) => Finding | undefined;
  readonly roles: () => readonly CompletionItem[];
  /** what a path leads to */
  readonly bearer: (path: string) => Bearer | undefined;
  /** properties of what stands before the dot */
  readonly propertiesOfPath: (fits: (property: Property) => boolean) => readonly CompletionItem[];
}

export function contextOf(checked: Checked, facts: FileFacts, module: Module, line: Line): Context {
  // What is being written may be read as anything: only what stands around it counts.
  const around = surroundingsOf(checked, facts, module, line.owners);
  const scope = once(() => scopeAt(around));
  const things = once(() => {
    const known = scope();
    return known ? [...known.names()].flatMap((name) => known.thing(name) ?? []) : [];
  });
  const bearer = (path: string): Bearer | undefined => {
    const [first, ...rest] = path.split('.');
    let found = first === undefined ? undefined : around.named(first);
    for (const name of rest) found = stepInto(around, found, name);
    return found;
  };
  return {
    checked,
    module,
    line,
    around,
    things,
    thing: (name) => scope()?.anyThing(name),
    standing: once(() => around.protocol && standingInside(around.protocol, line.owners, line.position)),
    finding: (name) => findingNamed(module, name),
    roles: () => {
      const team = around.protocol?.context.things.team;
      const all = roleItems(module);
      return team && team.size > 0 ? all.filter(({ label }) => team.has(label)) : all;
    },
    bearer,
    propertiesOfPath: (fits) => propertyItems(line.path === undefined ? undefined : bearer(line.path)?.kind, fits),
  };
}

export function propertyItems(kind: Kind | undefined, fits: (property: Property) => boolean): CompletionItem[] {
  return [...(kind?.properties.values() ?? [])]
    .filter(fits)
    .map((property) => item('property', property.name, typeWords(property)));
}

/** What a property may hold, in words. */
export function typeWords({ type }: Property): string | undefined {
  switch (type?.form) {
    case undefined:
      return undefined;
    case 'quantity':
      return type.range ? `${type.dimension} range` : type.dimension;
    case 'size':
    case 'yes or no':
    case 'text':
    case 'number':
      return type.form;
    case 'one of':
    case 'any of': {
      const values = type.values.map(({ text }) => text);
      return `${type.form} ${values.slice(0, 6).join(', ')}${values.length > 6 ? ' …' : ''}`;
    }
    case 'kind':
      return type.kind.text.replaceAll('_', ' ');
    default:
      return type satisfies never;
  }
}

function stepInto(around: Surroundings, owner: Bearer | undefined, name: string): Bearer | undefined {
  const property = owner?.kind?.properties.get(name);
  const value = owner?.thing?.values.get(name)?.values[0];
  const named = value?.type === 'name' ? around.named(value.name) : undefined;
  if (named) return named;
  const kind = property?.type?.form === 'kind' ? kindNamed(around.module, property.type.kind.text) : undefined;
  return owner?.kind && property
    ? {
        meaning: { type: 'property', property, value: undefined, of: owner.kind.label, kind: owner.kind },
        kind,
        thing: undefined,
      }
    : undefined;
}
