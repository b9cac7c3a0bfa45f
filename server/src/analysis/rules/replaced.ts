import type { Rule } from '../model.ts';
import type { Module } from '../names/module.ts';

/**
 * The rule that another says it stands in for: of those of that name that its file reaches the nearest, its own file first, and only
 * when there is no other, itself. Undefined when it replaces none or none is found.
 */
export function replacedBy(module: Module, rule: Rule): Rule | undefined {
  const { replaces } = rule;
  if (replaces === undefined) return undefined;
  const home = module.module(rule.file);
  let itself: Rule | undefined;
  for (const scope of home?.closure ?? []) {
    if (!scope.rules.has(replaces)) continue;
    const found = home?.module(scope.id)?.declarations.rule(replaces);
    if (found && !sameRule(found, rule)) return found;
    itself ??= found;
  }
  return itself;
}

/** The rules that a rule stands in for: the one it replaces, the one that replaces, and so on. A ring ends where it closes. */
export function chainFrom(module: Module, rule: Rule): readonly Rule[] {
  const chain: Rule[] = [];
  for (let next = replacedBy(module, rule); next; next = replacedBy(module, next)) {
    const one = next;
    if (chain.some((other) => sameRule(other, one))) break;
    chain.push(one);
    if (sameRule(one, rule)) break;
  }
  return chain;
}

/** The rules that replace one another in a ring that a rule is part of, itself first; undefined when it is in none. */
export function ringOf(module: Module, rule: Rule): readonly Rule[] | undefined {
  const chain = chainFrom(module, rule);
  const last = chain.at(-1);
  return last && sameRule(last, rule) ? [rule, ...chain.slice(0, -1)] : undefined;
}

/**
 * What is left of rules when each that another of them replaces is taken away. In a ring nobody can tell which is meant to count, so
 * none of it is taken away by another of the same ring.
 */
export function inForce(module: Module, rules: readonly Rule[]): Rule[] {
  const replaced: Rule[] = [];
  for (const rule of rules) {
    const target = replacedBy(module, rule);
    if (target && !ringOf(module, rule)) replaced.push(target);
  }
  return replaced.length === 0 ? [...rules] : rules.filter((rule) => !replaced.some((other) => sameRule(other, rule)));
}

export function sameRule(a: Rule, b: Rule): boolean {
  return a === b || (a.name === b.name && a.file === b.file);
}
