import type { Name, PathNode } from '@curette/grammar';
import type { Module } from '../names/module.ts';
import type { Thing, Things } from './things.ts';

/** What names mean where steps stand: in a protocol its things; in a procedure the things it was called with. */
export interface NameScope {
  readonly module: Module;
  readonly things: Things;
  readonly thing: (name: string) => Thing | undefined;
  /** a listed thing, or one of the library's places; undefined for a name nobody knows */
  readonly anyThing: (name: string) => Thing | undefined;
  /** all the things a bare name stands for: several, where a procedure was called with several in one slot */
  readonly several: (name: string) => readonly Thing[];
  /** names that may be written here, for guessing what was meant */
  readonly names: () => Iterable<string>;
  readonly inside: 'protocol' | 'procedure';
}

export function protocolScope(module: Module, things: Things): NameScope {
  return {
    module,
    things,
    thing: (name) => things.byName.get(name),
    anyThing: (name) => things.byName.get(name) ?? things.unlisted(name),
    several: () => [],
    names: () => things.byName.keys(),
    inside: 'protocol',
  };
}

export function procedureScope(
  module: Module,
  things: Things,
  bound: ReadonlyMap<string, readonly Thing[]>,
): NameScope {
  return {
    module,
    things,
    thing: (name) => bound.get(name)?.[0],
    anyThing: (name) => bound.get(name)?.[0] ?? things.unlisted(name),
    several: (name) => bound.get(name) ?? [],
    names: () => bound.keys(),
    inside: 'procedure',
  };
}

export type Followed =
  | { readonly ok: true; readonly thing: Thing }
  /** `name` is not known at all, or is no property of the thing before it */
  | { readonly ok: false; readonly reason: 'unknown'; readonly name: Name; readonly of: Thing | undefined }
  /** the property exists but nothing says which thing it is */
  | { readonly ok: false; readonly reason: 'not stated'; readonly name: Name; readonly of: Thing };

/** The thing a path leads to, through properties that name things (`socket.tooth`). */
export function followPath(scope: NameScope, path: PathNode): Followed | undefined {
  const [first, ...rest] = path.names;
  if (!first) return undefined;
  let thing = scope.anyThing(first.text);
  if (!thing) return { ok: false, reason: 'unknown', name: first, of: undefined };
  for (const name of rest) {
    const next: Thing | undefined = thingNamedBy(scope.things, thing, name.text);
    if (!next)
      return thing.kind.properties.has(name.text)
        ? { ok: false, reason: 'not stated', name, of: thing }
        : { ok: false, reason: 'unknown', name, of: thing };
    thing = next;
  }
  return { ok: true, thing };
}

/** The thing that a property of another names. */
export function thingNamedBy(things: Things, thing: Thing, property: string): Thing | undefined {
  const value = thing.values.get(property)?.values[0];
  if (value?.type !== 'name') return undefined;
  return things.byName.get(value.name) ?? things.unlisted(value.name);
}
