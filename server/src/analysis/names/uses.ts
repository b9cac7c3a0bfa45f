import type { Statement, SyntaxTree } from '@curette/grammar';
import { missingFile } from '../../problems/missing_file.ts';
import { problemAt, type Report } from '../../problems/problem.ts';
import { unusableFile } from '../../problems/unusable_file.ts';
import { unusedUse } from '../../problems/unused_use.ts';
import { useCycle } from '../../problems/use_cycle.ts';
import { useOutside } from '../../problems/use_outside.ts';
import { placeOf } from '../model.ts';
import type { Snapshot } from '../snapshot.ts';
import { usePathTo } from '../use-path.ts';
import type { FileScope } from './file-scope.ts';
import type { Module } from './module.ts';

/** Every `use` leads to a file within the workspace or the library, is not circular, and is needed. */
export function checkUses(module: Module, tree: SyntaxTree, snapshot: Snapshot, report: Report): void {
  for (const use of module.uses) {
    const { statement } = use;
    const { path } = statement;
    if (!path) continue;
    const place = placeOf(module.id, statement, path);
    switch (use.state) {
      case 'unwritten':
        break;
      case 'outside':
        report(problemAt(useOutside, place, { path: path.text }));
        break;
      case 'missing':
        report(
          problemAt(missingFile, place, {
            path: path.text,
            library: path.text.startsWith('std/'),
            known: snapshot.library.map((id) => usePathTo(module.id, id)),
            place,
          }),
        );
        break;
      case 'unusable': {
        const file = use.target && snapshot.file(use.target);
        report(
          problemAt(unusableFile, place, {
            path: path.text,
            trouble: (file ? file.trouble : undefined) ?? 'unreadable',
          }),
        );
        break;
      }
      case 'found': {
        if (use.target === module.id) {
          report(problemAt(useCycle, place, { path: path.text, itself: true }));
          break;
        }
        if (module.cycles.includes(statement)) report(problemAt(useCycle, place, { path: path.text, itself: false }));
        const scope = module.visible.find((other) => other.id === use.target);
        if (scope && !isNeeded(module, scope, tree))
          report(problemAt(unusedUse, place, { path: path.text, file: module.id, statement: statement.id }));
        break;
      }
      default:
        use.state satisfies never;
    }
  }
}

/** A file is needed when one of its names is written here, or when it brings rules or says which figures count. */
function isNeeded(module: Module, scope: FileScope, tree: SyntaxTree): boolean {
  const target = module.module(scope.id);
  const counts = (other: FileScope) => other.rules.size > 0 || other.applied.length > 0;
  if (counts(scope) || target?.closure.some((other) => counts(other) && other.id !== module.id)) return true;
  const visit = (body: SyntaxTree['body']): boolean =>
    body.items.some(
      (item) =>
        (item.type !== 'use' && namesIn(item).some((name) => declares(scope, name))) ||
        (item.body !== undefined && visit(item.body)),
    );
  return visit(tree.body);
}

function declares(scope: FileScope, name: string): boolean {
  return (
    scope.kinds.has(name) ||
    scope.entries.has(name) ||
    scope.verbs.has(name) ||
    scope.sources.has(name) ||
    scope.findings.has(name) ||
    scope.pauses.has(name) ||
    scope.units.has(name) ||
    scope.figures.has(name) ||
    scope.groups.has(name) ||
    scope.protocols.has(name)
  );
}

const names = new WeakMap<Statement, readonly string[]>();

/** Every name written in a statement's head. */
function namesIn(statement: Statement): readonly string[] {
  const known = names.get(statement);
  if (known) return known;
  const found: string[] = [];
  const visit = (value: unknown): void => {
    if (Array.isArray(value)) for (const part of value) visit(part);
    else if (typeof value === 'object' && value !== null) {
      if ('text' in value && typeof value.text === 'string') found.push(value.text);
      for (const [key, part] of Object.entries(value)) if (key !== 'body') visit(part);
    }
  };
  visit(statement);
  names.set(statement, found);
  return found;
}
