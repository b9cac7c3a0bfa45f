import { figuresConflict } from '../../problems/figures_conflict.ts';
import { type Place, problemAt, type Report } from '../../problems/problem.ts';
import { unknownName } from '../../problems/unknown_name.ts';
import { type AppliedSet, type Entry, type FigureGap, type Kind, type PropertyValue, placeOf } from '../model.ts';
import { type Module, visibleNames } from '../names/module.ts';
import { figuresNamed } from '../names/resolve.ts';
import { figureKey } from './figures.ts';

/**
 * The sets of figures that count in a file, by their group: those that it applies, or any file it reaches. Two of one group are
 * never merged: the first is what the file says itself.
 */
export function appliedSets(module: Module): ReadonlyMap<string, readonly AppliedSet[]> {
  const known = applied.get(module);
  if (known) return known;
  const groups = new Map<string, AppliedSet[]>();
  for (const scope of module.closure) {
    const home = module.module(scope.id);
    for (const statement of scope.applied) {
      const set = home && statement.name && figuresNamed(home, statement.name.text);
      if (!set) continue;
      const same = groups.get(set.group) ?? [];
      // However many files lead to it, a set counts once.
      if (same.some((other) => other.set.statement === set.statement)) continue;
      groups.set(set.group, [...same, { file: scope.id, statement, set }]);
    }
  }
  applied.set(module, groups);
  return groups;
}

const applied = new WeakMap<Module, ReadonlyMap<string, readonly AppliedSet[]>>();

/** What the sets that count say of a thing, and what they leave open. */
export interface Figures {
  readonly values: ReadonlyMap<string, PropertyValue>;
  readonly gaps: ReadonlyMap<string, FigureGap>;
}

/** The properties of an entry, or of anything of a kind, that come from sets of figures. */
export function figuresOf(module: Module, kind: Kind, entry: Entry | undefined): Figures {
  let values: Map<string, PropertyValue> | undefined;
  let gaps: Map<string, FigureGap> | undefined;
  for (const { name, from } of kind.properties.values()) {
    if (from === undefined) continue;
    values ??= new Map();
    gaps ??= new Map();
    const [counting, further] = appliedSets(module).get(from) ?? [];
    const line = counting && !further ? lineFor(counting, kind, entry) : undefined;
    const value = line?.values.get(name);
    if (value && value.values.length > 0) values.set(name, value);
    else
      gaps.set(name, {
        property: name,
        group: from,
        why: !counting ? 'none applied' : further || value ? 'told' : 'silent',
        set: counting?.set,
      });
  }
  return values && gaps ? { values, gaps } : none;
}

const none: Figures = { values: new Map(), gaps: new Map() };

/** The entry's own line; without one, that of the nearest kind. */
function lineFor({ set }: AppliedSet, kind: Kind, entry: Entry | undefined) {
  const own = entry && set.lines.get(figureKey(entry));
  if (own) return own;
  for (let k: Kind | undefined = kind; k; k = k.parent) {
    const line = set.lines.get(figureKey(k));
    if (line) return line;
  }
  return undefined;
}

/** Every set that a file applies is there, and of each group one at most counts in it. */
export function checkApplied(module: Module, report: Report): void {
  for (const statement of module.scope.applied) {
    const { name } = statement;
    if (!name || figuresNamed(module, name.text)) continue;
    const place = placeOf(module.id, statement, name);
    report(
      problemAt(unknownName, place, {
        name: name.text,
        wanted: 'set of figures',
        candidates: visibleNames(module, 'figures'),
        library: module.elsewhere(['figures'], name.text),
        place,
      }),
    );
  }
  for (const [group, [first, ...further]] of appliedSets(module))
    for (const other of further) {
      if (!first) continue;
      const [one, two] = [noteOf(first), noteOf(other)];
      for (const here of placesIn(module, first, other))
        report(problemAt(figuresConflict, here, { group, one, two, file: module.id }));
    }
}

function noteOf({ file, statement, set }: AppliedSet) {
  return {
    label: set.label,
    place: placeOf(file, statement, statement.name ?? statement.head),
    statement: statement.id,
  };
}

/** Where a file is told of two sets: at its own lines, or where it brings in the file that has the second. */
function placesIn(module: Module, first: AppliedSet, second: AppliedSet): readonly Place[] {
  const own = [second, first].find(({ file }) => file === module.id);
  if (own) return [placeOf(module.id, own.statement, own.statement.name ?? own.statement.head)];
  const leading = module.uses.filter(
    ({ target }) => target !== undefined && module.module(target)?.closure.some(({ id }) => id === second.file),
  );
  return leading.slice(0, 1).map(({ statement }) => placeOf(module.id, statement, statement.path ?? statement.head));
}
