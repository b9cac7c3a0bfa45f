import type { Expr } from '@curette/grammar';
import type { Finding } from '../model.ts';
import { findingNamed } from '../names/resolve.ts';
import { type Environment, evaluate } from './evaluate.ts';

/**
 * The finding that `wall is lost` asks about; undefined where the name stands for a thing, or for nothing that is looked for. A place
 * may have the name of a finding: what can be found of it is asked of the finding.
 */
export function findingAsked(expr: Extract<Expr, { type: 'is' }>, environment: Environment): Finding | undefined {
  const { subject } = expr;
  const [name, ...more] = subject.type === 'path' && !expr.for ? subject.names : [];
  if (!name || more.length > 0 || environment.filling(name.text)) return undefined;
  const finding = findingNamed(environment.module, name.text);
  if (!finding || !expr.name) return undefined;
  if (finding.values.has(expr.name.text)) return finding;
  return evaluate(subject, environment).type === 'name' ? finding : undefined;
}

/** Every `NAME is VALUE` in a condition. */
export function isConditions(expr: Expr | undefined): readonly Extract<Expr, { type: 'is' }>[] {
  switch (expr?.type) {
    case 'is':
      return [expr];
    case 'and':
    case 'or':
    case 'compare':
      return [...isConditions(expr.left), ...isConditions(expr.right)];
    case 'not':
      return isConditions(expr.operand);
    default:
      return [];
  }
}
