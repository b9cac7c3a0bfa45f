import type { Expr } from '@curette/grammar';
import type { Rule } from '../model.ts';
import type { Module } from '../names/module.ts';
import { findingNamed } from '../names/resolve.ts';
import { isConditions } from '../rules/findings.ts';

/** The findings that conditions of rules may ask for, once each. */
export function findingsAskedBy(module: Module, rules: readonly Rule[]): ReadonlySet<string> {
  const found = new Set<string>();
  for (const rule of rules) {
    const own = module.module(rule.file) ?? module;
    const ask = (expr: Expr | undefined) => {
      for (const { subject } of isConditions(expr)) {
        const [name, ...more] = subject.type === 'path' ? subject.names : [];
        if (name && more.length === 0 && findingNamed(own, name.text)) found.add(name.text);
      }
    };
    for (const form of rule.forms) {
      if (form.type === 'whenever') {
        ask(form.where);
        for (const expected of form.expect) ask(expected);
        if (form.pattern.sort === 'finding') found.add(form.pattern.verb);
      }
      if ('pattern' in form) ask(form.pattern.where);
      if ('first' in form) {
        ask(form.first.where);
        ask(form.second?.where);
      }
    }
  }
  return found;
}
