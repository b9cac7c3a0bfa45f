import type { Name, PathNode } from '@curette/grammar';
import { parseUnit } from '@curette/shared';
import { appliedSets, figuresOf } from '../analysis/kinds/applied.ts';
import { type Kind, placeOf } from '../analysis/model.ts';
import { lookUp } from '../analysis/names/module.ts';
import { figuresNamed, findingNamed, kindNamed } from '../analysis/names/resolve.ts';
import type { Bearer, Meaning } from './meaning.ts';
import { homeOf, protocolNamed, type Surroundings } from './surroundings.ts';

/** What a path leads to. */
export function bearerAt(around: Surroundings, path: PathNode): Bearer | undefined {
  const [first, ...rest] = path.names;
  let bearer = first && around.named(first.text);
  for (const name of rest) bearer = bearerOfProperty(around, bearer, name.text);
  return bearer;
}

/** What a property of something leads to, when it names a thing or a kind of thing. */
export function bearerOfProperty(around: Surroundings, owner: Bearer | undefined, name: string): Bearer | undefined {
  const meaning = propertyMeaning(owner?.kind, name, around, owner);
  if (meaning?.type !== 'property') return undefined;
  const { property, value } = meaning;
  const [first] = value?.values ?? [];
  const thing = first?.type === 'name' ? around.scope?.thing(first.name) : undefined;
  const kind =
    thing?.kind ?? (property.type?.form === 'kind' ? kindNamed(around.module, property.type.kind.text) : undefined);
  return { meaning, kind, thing };
}

/** A property of a kind, with what is stated for it where the cursor is. */
export function propertyMeaning(
  kind: Kind | undefined,
  name: string,
  around?: Surroundings,
  owner?: Bearer,
): Meaning | undefined {
  const property = kind?.properties.get(name);
  if (!kind || !property) return undefined;
  const holder = owner ?? (around && ownerOf(around));
  const entry = entryOf(holder);
  const value =
    holder?.thing?.values.get(name) ??
    entry?.values.get(name) ??
    (around && property.from !== undefined ? figuresOf(around.module, kind, entry).values.get(name) : undefined);
  return { type: 'property', property, value, of: holder?.thing?.label ?? entryOf(holder)?.label ?? kind.label, kind };
}

function entryOf(bearer: Bearer | undefined) {
  return bearer?.meaning.type === 'entry' ? bearer.meaning.entry : undefined;
}

/** The thing or entry whose block the innermost statement stands in. */
export function ownerOf(around: Surroundings): Bearer | undefined {
  const owner = around.path.at(-2)?.statement;
  if (owner?.type === 'thing' || owner?.type === 'entry' || owner?.type === 'value' || owner?.type === 'figure')
    return owner.name && around.named(owner.name.text);
  return undefined;
}

/** The kind whose properties or states the innermost statement speaks of. */
export function kindAround(around: Surroundings): Kind | undefined {
  const owner = around.path.at(-2)?.statement;
  if (owner?.type === 'kind') return owner.name && kindNamed(around.module, owner.name.text);
  return ownerOf(around)?.kind;
}

/** What a line of a case fills in: a given thing or a finding. */
export function valueOfCase(around: Surroundings, name: string): Meaning | undefined {
  const thing = around.named(name);
  if (thing?.meaning.type === 'thing') return thing.meaning;
  const top = around.path[0]?.statement;
  const home = top?.type === 'case' ? homeOf(around.checked, around.module, top) : undefined;
  const finding = findingNamed(around.module, name) ?? (home && findingNamed(home.module, name));
  return finding ? { type: 'finding', finding } : thing?.meaning;
}

/** A state of a kind. */
export function stateMeaning(kind: Kind | undefined, state: string): Meaning | undefined {
  const track = kind?.tracks.find((other) => other.states.has(state));
  return kind && track && { type: 'state', state, track, kind };
}

export function findingMeaning(around: Surroundings, name: Name | undefined): Meaning | undefined {
  const finding = name && findingNamed(around.module, name.text);
  return finding && { type: 'finding', finding };
}

/** A rule of any file that this one reaches. */
export function ruleMeaning(around: Surroundings, name: Name | undefined): Meaning | undefined {
  if (!name) return undefined;
  for (const scope of around.module.closure) {
    const rule = around.module.module(scope.id)?.declarations.rule(name.text);
    if (rule) return { type: 'rule', rule };
  }
  return undefined;
}

/** A set of figures, and whether it counts here. */
export function figuresMeaning({ module }: Surroundings, name: Name | undefined): Meaning | undefined {
  const set = name && figuresNamed(module, name.text);
  if (!set) return undefined;
  const applied = appliedSets(module).get(set.group) ?? [];
  const counts = applied.some((other) => other.set === set);
  return { type: 'figures', set, applied: !counts ? 'no' : applied.length > 1 ? 'one of two' : 'yes' };
}

/** A group of sets of figures, with the sets there are. */
export function groupMeaning({ module }: Surroundings, name: Name | undefined): Meaning | undefined {
  if (!name) return undefined;
  const group = name.text;
  const declared = lookUp(module, 'groups', group);
  const counting = appliedSets(module).get(group) ?? [];
  const sets = module.setsOf(group).flatMap(({ file, statement }) => {
    const set = statement.name && module.module(file)?.declarations.figures(statement.name.text);
    return set ? [{ set, applied: counting.some((other) => other.set.statement === statement) }] : [];
  });
  if (!declared && sets.length === 0) return undefined;
  const place = declared && placeOf(declared.scope.id, declared.statement, declared.statement.name);
  return { type: 'figure group', group, place, sets };
}

export function protocolMeaning(around: Surroundings, name: Name | undefined): Meaning | undefined {
  const declared = name && protocolNamed(around.checked, around.module, name.text);
  return declared && { type: 'protocol', declared };
}

/** A unit, and where it is declared when a file declares it. */
export function unitMeaning(around: Surroundings, spelling: string): Meaning | undefined {
  const parsed = parseUnit(spelling, around.module.units());
  if (!parsed.ok) return undefined;
  const found = lookUp(around.module, 'units', spelling);
  const name = found?.statement.names.find((other) => other.text === spelling);
  const declared = found && placeOf(found.scope.id, found.statement, name ?? found.statement.head);
  return { type: 'unit', spelling, unit: parsed.unit, declared };
}
