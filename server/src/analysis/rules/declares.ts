import { problemAt, type Report } from '../../problems/problem.ts';
import { propertyNotDeclared } from '../../problems/property_not_declared.ts';
import { isKind } from '../kinds/subkind.ts';
import { placeOf } from '../model.ts';
import type { Module } from '../names/module.ts';
import { rulesApplying } from '../names/resolve.ts';

/** `every KIND declares …`: each entry of this file has the properties that the rules in force ask of its kind. */
export function checkDeclares(module: Module, report: Report): void {
  if (module.scope.entries.size === 0) return;
  for (const rule of rulesApplying(module))
    for (const form of rule.forms) {
      if (form.type !== 'every') continue;
      for (const name of module.scope.entries.keys()) {
        const entry = module.declarations.entry(name);
        if (!entry || !isKind(entry.kind, form.kind)) continue;
        // What comes from a set of figures is no entry's to state: it is asked of the set that is applied, where it is needed.
        const missing = form.properties.filter(
          (property) => !entry.values.has(property) && entry.kind.properties.get(property)?.from === undefined,
        );
        if (missing.length === 0) continue;
        report(
          problemAt(
            propertyNotDeclared,
            placeOf(module.id, entry.statement, entry.statement.name ?? entry.statement.head),
            {
              entry: entry.label,
              kind: form.kind.label,
              missing,
              rule: rule.name,
              severity: rule.severity,
              why: rule.why,
              source: module.citation(rule.source) ?? module.module(rule.file)?.citation(rule.source),
              declared: placeOf(rule.file, rule.statement, rule.statement.head),
            },
          ),
        );
      }
    }
}
