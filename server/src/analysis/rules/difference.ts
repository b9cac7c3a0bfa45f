import type { Expr, Name, Span, Statement } from '@curette/grammar';
import type { Kind, Rule, RuleForm } from '../model.ts';
import type { Module } from '../names/module.ts';

/** A rule, and the file where it stands. */
export interface Stated {
  readonly module: Module;
  readonly rule: Rule;
}

/** A form of rule by its sort. */
export type Form<T extends RuleForm['type']> = Extract<RuleForm, { type: T }>;

/** Where something stands in a rule. */
export interface Site {
  readonly statement: Statement;
  readonly span: Span;
}

/** One thing in which a rule and the one it replaces differ, and not to the stricter side. */
export interface Difference {
  /** `looser`: what the old one forbids the new one allows; `apart`: which of them is stricter cannot be told */
  readonly type: 'looser' | 'apart';
  /** what it is about: "how often" */
  readonly about: string;
  readonly old: Side;
  readonly new: Side;
  /** how the new rule can take over what the old one says, where a change of one place does it */
  readonly takeOver: TakeOver | undefined;
}

export interface Side {
  /** what the rule says of it; empty: nothing */
  readonly words: string;
  readonly site: Site;
}

export interface TakeOver {
  readonly from: Site;
  /** a line of its own, where the new rule has none yet */
  readonly to: Site | 'new line';
  /** the new rule's names by those of the old one */
  readonly names: ReadonlyMap<string, string>;
}

/** The change that writes the one place as the other is, where both have it. */
export function takingOver(from: Site | undefined, to: Site | undefined, names = NONE): TakeOver | undefined {
  return from && to && { from, to, names };
}

const NONE: ReadonlyMap<string, string> = new Map();

/** The kind of what a name of a rule's conditions stands for. */
export function kindIn(form: Form<'whenever' | 'total'>, name: string): Kind | undefined {
  if (form.type === 'total') return name === form.name ? form.kind : undefined;
  const accepts = form.pattern.slots.find((slot) => slot.name === name)?.accepts;
  return accepts?.type === 'kind' ? accepts.kind : undefined;
}

/** A rule's name, where there is no line to point to. */
export function headOf({ statement }: Rule): Site {
  return { statement, span: statement.name ?? statement.head };
}

export function siteOf(rule: Rule, form: RuleForm): Site {
  const statement = lineOf(rule, form);
  return statement === rule.statement ? headOf(rule) : { statement, span: statement.head };
}

/** The line that a rule says something in; of several that say the same, the first. */
export function lineOf(rule: Rule, form: RuleForm): Statement {
  for (const item of rule.statement.body?.items ?? []) {
    switch (item.type) {
      case 'whenever':
      case 'pause rule':
      case 'count':
        if ('pattern' in form && item.pattern === form.pattern.node) return item;
        break;
      case 'order':
      case 'between':
        if ('first' in form && item.first === form.first.node) return item;
        break;
      case 'every':
        if (form.type === 'every' && item.kind?.text === form.kind.name && sameNames(item.properties, form.properties))
          return item;
        break;
      case 'for each':
        if (form.type === 'total' && item.kind?.text === form.kind.name) return item;
        break;
      default:
        break;
    }
  }
  return rule.statement;
}

/** Where a part of what a rule expects stands. */
export function expectSite(rule: Rule, expr: Expr): Site | undefined {
  for (const item of rule.statement.body?.items ?? [])
    if (item.type === 'expect' && holds(item.condition, expr)) return { statement: item, span: expr };
  return undefined;
}

function holds(whole: Expr | undefined, part: Expr): boolean {
  if (whole === part) return true;
  return whole?.type === 'and' && (holds(whole.left, part) || holds(whole.right, part));
}

function sameNames(names: readonly Name[], texts: readonly string[]): boolean {
  return names.length === texts.length && names.every(({ text }, i) => text === texts[i]);
}
