import type { Statement } from '@curette/grammar';
import { declareUnit, type Quantity, type Unit } from '@curette/shared';
import { badUnit } from '../../problems/bad_unit.ts';
import { limitWithoutSource } from '../../problems/limit_without_source.ts';
import { type Problem, problemAt, type Report, type SourceNote } from '../../problems/problem.ts';
import { unknownName } from '../../problems/unknown_name.ts';
import { resolveAction, resolveProcedure } from '../actions/action.ts';
import {
  type Action,
  type Entry,
  type FigureSet,
  type Finding,
  type Kind,
  type Pause,
  type Procedure,
  placeOf,
  type Rule,
  type Source,
} from '../model.ts';
import { type Module, visibleNames } from '../names/module.ts';
import { sourceNamed } from '../names/resolve.ts';
import { resolveRule } from '../rules/rule.ts';
import { CORE } from '../use-path.ts';
import { checkApplied } from './applied.ts';
import { resolveEntry } from './entry.ts';
import { resolveFigures } from './figures.ts';
import { resolveKind } from './kind.ts';
import { readQuantity } from './quantity.ts';
import { resolveFinding, resolvePause, resolveSource } from './small.ts';

/** A file's own declarations, each resolved when first asked for. */
export interface Declarations {
  readonly kind: (name: string) => Kind | undefined;
  readonly entry: (name: string) => Entry | undefined;
  readonly verb: (verb: string) => readonly (Action | Procedure)[];
  readonly rule: (name: string) => Rule | undefined;
  readonly finding: (name: string) => Finding | undefined;
  readonly pause: (name: string) => Pause | undefined;
  readonly source: (name: string) => Source | undefined;
  readonly figures: (name: string) => FigureSet | undefined;
  readonly units: () => ReadonlyMap<string, Unit>;
  /** resolves all, and gives what was wrong in any */
  readonly problems: () => readonly Problem[];
}

export const COMMON_PRACTICE = 'common_practice';

export function createDeclarations(self: () => Module): Declarations {
  const problems: Problem[] = [];
  const report: Report = (problem) => problems.push(problem);

  const kind = remembered((name) => {
    const statement = self().scope.kinds.get(name);
    return statement && resolveKind(self(), statement, name, report);
  });
  const entry = remembered((name) => {
    const statement = self().scope.entries.get(name);
    return statement && resolveEntry(self(), statement, name, report);
  });
  const verb = remembered((name) =>
    (self().scope.verbs.get(name) ?? []).map((statement) =>
      statement.type === 'action'
        ? resolveAction(self(), statement, name, report)
        : resolveProcedure(self(), statement, name, report),
    ),
  );
  const rule = remembered((name) => {
    const statement = self().scope.rules.get(name);
    return statement && resolveRule(self(), statement, name, report);
  });
  const finding = remembered((name) => {
    const statement = self().scope.findings.get(name);
    return statement && resolveFinding(self().id, statement, name);
  });
  const pause = remembered((name) => {
    const statement = self().scope.pauses.get(name);
    return statement && resolvePause(self(), statement, name, report);
  });
  const source = remembered((name) => {
    const statement = self().scope.sources.get(name);
    return statement && resolveSource(self().id, statement, name);
  });

  const figures = remembered((name) => {
    const statement = self().scope.figures.get(name);
    return statement && resolveFigures(self(), statement, name, report);
  });

  let units: Map<string, Unit> | undefined;
  const ownUnits = () => {
    if (units) return units;
    units = new Map();
    // A unit's own value is stated in units that every file knows, so that no two can be worth each other.
    const everywhere = self().id === CORE ? undefined : self().module(CORE)?.declarations.units();
    const reader: Module = { ...self(), units: () => everywhere ?? new Map() };
    for (const statement of new Set(self().scope.units.values())) {
      const [one, ...more] = statement.names.map((name) => name.text);
      if (one === undefined) continue;
      const value: Quantity | 'count' | undefined = statement.count
        ? 'count'
        : statement.value && readQuantity(reader, statement, statement.value, report);
      if (value === undefined) continue;
      const unit = declareUnit([one, ...more], value);
      if (typeof unit === 'string')
        report(problemAt(badUnit, placeOf(self().id, statement, statement.head), { name: one, reason: unit }));
      else for (const name of [one, ...more]) units.set(name, unit);
    }
    return units;
  };

  let all = false;
  return {
    kind,
    entry,
    verb: (name) => verb(name) ?? [],
    rule,
    finding,
    pause,
    source,
    figures,
    units: ownUnits,
    problems: () => {
      if (!all) {
        all = true;
        const scope = self().scope;
        ownUnits();
        for (const name of scope.kinds.keys()) kind(name);
        for (const name of scope.entries.keys()) entry(name);
        for (const name of scope.verbs.keys()) verb(name);
        for (const name of scope.findings.keys()) finding(name);
        for (const name of scope.pauses.keys()) pause(name);
        for (const name of scope.sources.keys()) source(name);
        for (const name of scope.rules.keys()) rule(name);
        for (const name of scope.figures.keys()) figures(name);
        checkApplied(self(), report);
        checkSources(self(), report);
      }
      return problems;
    },
  };
}

/** What a source's name stands for, ready to be shown. */
export function citation(module: Module, name: string | undefined): SourceNote | undefined {
  if (name === undefined) return undefined;
  if (name === COMMON_PRACTICE) return { name, citation: 'common practice, no published source' };
  const source = sourceNamed(module, name);
  return source && { name, citation: source.citation };
}

/** Every source named anywhere in a declaration is declared; every limit names one. */
function checkSources(module: Module, report: Report): void {
  for (const item of module.file().tree.body.items) {
    if (item.type === 'protocol' || item.type === 'case') continue;
    for (const inner of [item, ...linesOf(item)]) {
      if (!('source' in inner) || !inner.source) {
        // A limit that is a property of the thing has its source where the property is filled in.
        if (inner.type === 'lasts' && inner.atMost?.type === 'quantity')
          report(
            problemAt(limitWithoutSource, placeOf(module.id, inner, inner.head), {
              limit: `how long "${inner.state.text.replaceAll('_', ' ')}" lasts`,
              file: module.id,
              statement: inner,
            }),
          );
        // Sets of figures disagree: each figure says who holds it.
        if (item.type === 'figures' && inner.type === 'value')
          report(
            problemAt(limitWithoutSource, placeOf(module.id, inner, inner.head), {
              limit: inner.name.text.replaceAll('_', ' '),
              file: module.id,
              statement: inner,
            }),
          );
        continue;
      }
      checkSource(module, inner.id, inner.source, report);
    }
  }
}

/** The lines of a declaration; in a set of figures, also those of its entries. */
function linesOf(item: Statement): readonly Statement[] {
  const lines = item.body?.items ?? [];
  return item.type === 'figures' ? lines.flatMap((line) => [line, ...(line.body?.items ?? [])]) : lines;
}

/** A source's name that nothing declares is reported where it is written. */
export function checkSource(
  module: Module,
  statement: number,
  source: { readonly text: string; readonly start: number; readonly end: number },
  report: Report,
): void {
  if (source.text === COMMON_PRACTICE || sourceNamed(module, source.text)) return;
  const place = { file: module.id, statement, span: source };
  report(
    problemAt(unknownName, place, {
      name: source.text,
      wanted: 'source',
      candidates: [COMMON_PRACTICE, ...visibleNames(module, 'sources')],
      library: module.elsewhere(['sources'], source.text),
      place,
    }),
  );
}

/** Resolves once a name; a name asked for while it is being resolved (a kind that is its own ancestor) is not known. */
function remembered<T>(resolve: (name: string) => T | undefined): (name: string) => T | undefined {
  const known = new Map<string, T | undefined>();
  return (name) => {
    if (known.has(name)) return known.get(name);
    known.set(name, undefined);
    const value = resolve(name);
    known.set(name, value);
    return value;
  };
}
