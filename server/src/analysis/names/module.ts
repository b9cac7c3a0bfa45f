import type {
  ActionStatement,
  FiguresStatement,
  ProcedureStatement,
  QuantityNode,
  UseStatement,
} from '@curette/grammar';
import type { DeclaredUnits, Quantity, Settings, Unit } from '@curette/shared';
import type { FileId, SourceNote } from '../../problems/problem.ts';
import { citation, createDeclarations, type Declarations } from '../kinds/declarations.ts';
import { interpretQuantity } from '../kinds/quantity.ts';
import { once } from '../once.ts';
import { settingsOf } from '../settings.ts';
import type { Snapshot, SourceFile } from '../snapshot.ts';
import { CORE, resolveUse } from '../use-path.ts';
import { type FileScope, fileScope } from './file-scope.ts';

/** One line `use`, and what became of it. */
export interface Use {
  readonly statement: UseStatement;
  readonly target: FileId | undefined;
  readonly state: 'found' | 'missing' | 'outside' | 'unwritten' | 'unusable';
}

/** A file together with all that it reaches: within it, names mean something. */
export interface Module {
  readonly id: FileId;
  readonly scope: FileScope;
  readonly uses: readonly Use[];
  /** own file, the files it uses, and the core, in the order names are looked for */
  readonly visible: readonly FileScope[];
  /** every file reached, itself first; its rules apply here */
  readonly closure: readonly FileScope[];
  /** files used that lead back to this one, by the `use` that does */
  readonly cycles: readonly UseStatement[];
  /** what the workspace says of the place where its protocols are carried out */
  readonly settings: Settings;
  /** own declarations resolved, each when first asked for */
  readonly declarations: Declarations;
  /** another file's module */
  readonly module: (id: FileId) => Module | undefined;
  /** this file as the snapshot that made the module has it; its declarations are still current, its protocols may not be */
  readonly file: () => SourceFile;
  /** what a source's name stands for, ready to be shown */
  readonly citation: (source: string | undefined) => SourceNote | undefined;
  /** a quantity as this file's units read it; what is wrong with it is reported where its line is checked */
  readonly quantity: (node: QuantityNode) => Quantity | undefined;
  /** units declared in visible files, by each of their names */
  readonly units: () => DeclaredUnits;
  /** a library file that declares the name but is not in use here */
  readonly elsewhere: (sorts: readonly (NameSort | 'verbs')[], name: string) => FileId | undefined;
  /** the sets of figures of a group that there are: in files that this one reaches, and in the library */
  readonly setsOf: (group: string) => readonly { readonly file: FileId; readonly statement: FiguresStatement }[];
}

export type NameSort =
  | 'kinds'
  | 'entries'
  | 'rules'
  | 'sources'
  | 'findings'
  | 'pauses'
  | 'units'
  | 'figures'
  | 'groups';

type Named<S extends NameSort> = FileScope[S] extends ReadonlyMap<string, infer T> ? T : never;

/** The first visible declaration of a name, own file first. */
export function lookUp<S extends NameSort>(
  module: Module,
  sort: S,
  name: string,
): { readonly scope: FileScope; readonly statement: Named<S> } | undefined {
  for (const scope of module.visible) {
    const statement = (scope[sort] as ReadonlyMap<string, Named<S>>).get(name);
    if (statement) return { scope, statement };
  }
  return undefined;
}

/** All visible actions and procedures of a verb. */
export function lookUpVerb(
  module: Module,
  verb: string,
): { readonly scope: FileScope; readonly statement: ActionStatement | ProcedureStatement }[] {
  const found: { scope: FileScope; statement: ActionStatement | ProcedureStatement }[] = [];
  for (const scope of module.visible)
    for (const statement of scope.verbs.get(verb) ?? []) found.push({ scope, statement });
  return found;
}

/** Names of a sort that may be used here, for completion and for guessing what was meant. */
export function visibleNames(module: Module, sort: NameSort | 'verbs'): Set<string> {
  const names = new Set<string>();
  for (const scope of module.visible) for (const name of scope[sort].keys()) names.add(name);
  return names;
}

export type Scopes = (file: SourceFile) => FileScope;

export interface Modules {
  readonly module: (id: FileId) => Module | undefined;
  readonly scopes: Scopes;
}

/** What is kept from one snapshot to the next. Answers do not depend on it, only how fast they come. */
export interface ModuleMemory {
  readonly scopes: Map<FileId, { readonly tree: SourceFile['tree']; readonly scope: FileScope }>;
  readonly modules: Map<FileId, Module>;
}

export function createModuleMemory(): ModuleMemory {
  return { scopes: new Map(), modules: new Map() };
}

/** The modules of a snapshot. A module made for an earlier snapshot is given again while all it reaches is unchanged. */
export function modulesOf(snapshot: Snapshot, memory: ModuleMemory): Modules {
  const current = new Map<FileId, Module | undefined>();

  const scopes: Scopes = (file) => {
    const kept = memory.scopes.get(file.id);
    if (kept?.tree === file.tree) return kept.scope;
    const scope = fileScope(file, kept?.scope);
    memory.scopes.set(file.id, { tree: file.tree, scope });
    return scope;
  };

  const scopeOf = (id: FileId): FileScope | undefined => {
    const file = snapshot.file(id);
    return file && scopes(file);
  };

  const module = (id: FileId): Module | undefined => {
    if (current.has(id)) return current.get(id);
    const scope = scopeOf(id);
    if (!scope) {
      current.set(id, undefined);
      return undefined;
    }
    const closure = reach(scope, scopeOf);
    const kept = memory.modules.get(id);
    const made =
      kept &&
      sameScopes(kept.closure, closure) &&
      sameUses(kept, snapshot) &&
      kept.settings === settingsOf(snapshot, id)
        ? kept
        : makeModule(snapshot.file(id) as SourceFile, scope, closure, snapshot, scopeOf, module);
    memory.modules.set(id, made);
    current.set(id, made);
    return made;
  };

  return { module, scopes };
}

function makeModule(
  file: SourceFile,
  scope: FileScope,
  closure: readonly FileScope[],
  snapshot: Snapshot,
  scopeOf: (id: FileId) => FileScope | undefined,
  module: (id: FileId) => Module | undefined,
): Module {
  const uses = scope.uses.map((statement): Use => {
    if (!statement.path) return { statement, target: undefined, state: 'unwritten' };
    const target = resolveUse(scope.id, statement.path.text);
    if (!target.ok) return { statement, target: undefined, state: 'outside' };
    return { statement, target: target.id, state: stateOf(snapshot.file(target.id)) };
  });
  const visible = [scope];
  const see = (id: FileId) => {
    const other = scopeOf(id);
    if (other && !visible.includes(other)) visible.push(other);
  };
  for (const use of uses) if (use.target && use.state === 'found') see(use.target);
  see(CORE);

  const cycles = uses
    .filter((use) => {
      const target = use.state === 'found' && use.target ? scopeOf(use.target) : undefined;
      return target !== undefined && reach(target, scopeOf).includes(scope);
    })
    .map((use) => use.statement);

  const self: Module = {
    id: scope.id,
    scope,
    uses,
    visible,
    closure,
    cycles,
    settings: settingsOf(snapshot, scope.id),
    declarations: createDeclarations(() => self),
    module: (id) => (id === scope.id ? self : module(id)),
    file: () => file,
    citation: (source) => citation(self, source),
    quantity: (node) => {
      const reading = interpretQuantity(node, self.units());
      return reading.ok ? reading.quantity : undefined;
    },
    units: once(() => {
      const units = new Map<string, Unit>();
      for (const seen of visible) {
        const own = module(seen.id)?.declarations ?? self.declarations;
        for (const [name, unit] of own.units()) if (!units.has(name)) units.set(name, unit);
      }
      return units;
    }),
    elsewhere: (sorts, name) =>
      snapshot.library.find((id) => {
        if (visible.some((seen) => seen.id === id)) return false;
        const other = scopeOf(id);
        return other !== undefined && sorts.some((sort) => other[sort].has(name));
      }),
    setsOf: (group) => {
      const scopes = new Set(closure);
      for (const id of snapshot.library) {
        const other = scopeOf(id);
        if (other) scopes.add(other);
      }
      return [...scopes].flatMap(({ id, figures }) =>
        [...figures.values()].flatMap((statement) =>
          statement.group?.text === group ? [{ file: id, statement }] : [],
        ),
      );
    },
  };
  return self;
}

function reach(from: FileScope, scopeOf: (id: FileId) => FileScope | undefined): readonly FileScope[] {
  const scopes = [from];
  const seen = new Set<FileId>([from.id]);
  const visit = (id: FileId) => {
    if (seen.has(id)) return;
    seen.add(id);
    const scope = scopeOf(id);
    if (scope) scopes.push(scope);
  };
  for (let i = 0; i < scopes.length; i++) {
    const scope = scopes[i] as FileScope;
    for (const use of scope.uses) {
      const target = use.path && resolveUse(scope.id, use.path.text);
      if (target?.ok) visit(target.id);
    }
  }
  visit(CORE);
  const core = scopes[scopes.length - 1];
  if (core?.id === CORE)
    for (const use of core.uses) {
      const target = use.path && resolveUse(CORE, use.path.text);
      if (target?.ok) visit(target.id);
    }
  return scopes;
}

function sameScopes(a: readonly FileScope[], b: readonly FileScope[]): boolean {
  return a.length === b.length && a.every((scope, i) => scope === b[i]);
}

/** A file that was missing, or was no text, may be there now without any scope having changed. */
function sameUses(module: Module, snapshot: Snapshot): boolean {
  return module.uses.every((use) => use.target === undefined || use.state === stateOf(snapshot.file(use.target)));
}

function stateOf(file: SourceFile | undefined): 'missing' | 'unusable' | 'found' {
  if (!file) return 'missing';
  return file.trouble ? 'unusable' : 'found';
}
