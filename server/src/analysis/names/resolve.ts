import type { Action, Entry, FigureSet, Finding, Kind, Pause, Procedure, Rule, Source } from '../model.ts';
import { inForce } from '../rules/replaced.ts';
import { lookUp, lookUpVerb, type Module } from './module.ts';

/** The kind a name means in this file. */
export function kindNamed(module: Module, name: string): Kind | undefined {
  const found = lookUp(module, 'kinds', name);
  return found && module.module(found.scope.id)?.declarations.kind(name);
}

export function entryNamed(module: Module, name: string): Entry | undefined {
  const found = lookUp(module, 'entries', name);
  return found && module.module(found.scope.id)?.declarations.entry(name);
}

export function findingNamed(module: Module, name: string): Finding | undefined {
  const found = lookUp(module, 'findings', name);
  return found && module.module(found.scope.id)?.declarations.finding(name);
}

export function pauseNamed(module: Module, name: string): Pause | undefined {
  const found = lookUp(module, 'pauses', name);
  return found && module.module(found.scope.id)?.declarations.pause(name);
}

export function sourceNamed(module: Module, name: string): Source | undefined {
  const found = lookUp(module, 'sources', name);
  return found && module.module(found.scope.id)?.declarations.source(name);
}

export function figuresNamed(module: Module, name: string): FigureSet | undefined {
  const found = lookUp(module, 'figures', name);
  return found && module.module(found.scope.id)?.declarations.figures(name);
}

/** All actions and procedures of a verb that this file sees. */
export function actionsNamed(module: Module, verb: string): (Action | Procedure)[] {
  const found: (Action | Procedure)[] = [];
  const seen = new Set<string>();
  for (const { scope } of lookUpVerb(module, verb)) {
    if (seen.has(scope.id)) continue;
    seen.add(scope.id);
    found.push(...(module.module(scope.id)?.declarations.verb(verb) ?? []));
  }
  return found;
}

/** Every action a file sees, for completion and for finding the step that brings a thing into a state. */
export function actionsVisible(module: Module): Action[] {
  const found: Action[] = [];
  for (const scope of module.visible)
    for (const verb of scope.verbs.keys())
      for (const action of module.module(scope.id)?.declarations.verb(verb) ?? [])
        if (action.type === 'action') found.push(action);
  return found;
}

/**
 * The rules that apply in this file: those of every file it reaches, less those that another of them replaces. A rule counts
 * once, however many files lead to it.
 */
export function rulesApplying(module: Module): Rule[] {
  const rules: Rule[] = [];
  for (const scope of module.closure) {
    const declarations = module.module(scope.id)?.declarations;
    for (const name of scope.rules.keys()) {
      const rule = declarations?.rule(name);
      if (rule) rules.push(rule);
    }
  }
  return inForce(module, rules);
}
