import type { Expr, Name, Statement } from '@curette/grammar';
import { locate } from '../locate.ts';
import type { Stated, TakeOver } from './difference.ts';

/**
 * What a rule says in one place, as another writes it with its own names; undefined when the other has no name for something that
 * it speaks of.
 */
export function textTakenOver({ module, rule }: Stated, { from, names }: TakeOver): string | undefined {
  const { text, tree } = (module.module(rule.file) ?? module).file();
  const start = locate(tree, from.statement.id)?.start;
  if (start === undefined) return undefined;
  const slots = slotNames(rule.statement);
  let written = text.slice(start + from.span.start, start + from.span.end);
  const roots = rootsIn(from.statement)
    .filter((name) => name.start >= from.span.start && name.end <= from.span.end && slots.has(name.text))
    .toSorted((a, b) => b.start - a.start);
  for (const name of roots) {
    const now = names.get(name.text);
    if (now === undefined) return undefined;
    const [before, after] = [name.start - from.span.start, name.end - from.span.start];
    written = written.slice(0, before) + now + written.slice(after);
  }
  return written;
}

/** The names that a rule's patterns give. */
function slotNames(rule: Statement): ReadonlySet<string> {
  const names = new Set<string>();
  for (const item of rule.body?.items ?? []) {
    if (item.type === 'whenever')
      for (const slot of item.pattern?.slots ?? []) {
        const name = slot.name ?? slot.kind;
        if (name) names.add(name.text);
      }
    if (item.type === 'for each' && item.name) names.add(item.name.text);
  }
  return names;
}

/** The first names of all paths in a line's conditions. */
function rootsIn(line: Statement): readonly Name[] {
  const roots: Name[] = [];
  const visit = (expr: Expr | undefined): void => {
    if (!expr) return;
    switch (expr.type) {
      case 'path': {
        const [first] = expr.names;
        if (first) roots.push(first);
        break;
      }
      case 'and':
      case 'or':
      case 'compare':
      case 'arithmetic':
        visit(expr.left);
        visit(expr.right);
        break;
      case 'not':
        visit(expr.operand);
        break;
      case 'is':
      case 'state':
        visit(expr.subject);
        visit(expr.for);
        break;
      case 'relation':
        visit(expr.subject);
        break;
      case 'call':
        for (const argument of expr.args) visit(argument);
        break;
      case 'quantity':
      case 'size':
      case 'text':
      case 'yes or no':
        break;
      default:
        expr satisfies never;
    }
  };
  if (line.type === 'expect') visit(line.condition);
  if (line.type === 'whenever' || line.type === 'for each') visit('where' in line ? line.where : undefined);
  return roots;
}
