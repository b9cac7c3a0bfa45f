import type { Expr } from '@curette/grammar';
import { kindNamed } from '../names/resolve.ts';
import { type Environment, evaluate } from '../rules/evaluate.ts';
import { findingAsked } from '../rules/findings.ts';
import { trackWith } from './track.ts';

/** Whether a condition hangs on a state that things are in when the step comes, or on what was found, and not on what they are. */
export function hangsOnState(expr: Expr | undefined, environment: Environment): boolean {
  if (!expr) return false;
  switch (expr.type) {
    case 'state':
      return true;
    case 'is': {
      if (expr.for) return true;
      if (!expr.name || kindNamed(environment.module, expr.name.text)) return false;
      const subject = evaluate(expr.subject, environment);
      if (findingAsked(expr, environment)) return true;
      return subject.type === 'thing' && trackWith(subject.thing, expr.name.text) !== undefined;
    }
    case 'and':
    case 'or':
    case 'compare':
      return hangsOnState(expr.left, environment) || hangsOnState(expr.right, environment);
    case 'not':
      return hangsOnState(expr.operand, environment);
    default:
      return false;
  }
}
