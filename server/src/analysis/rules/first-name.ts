import type { Expr } from '@curette/grammar';

/** The first name an expression speaks of. */
export function firstName(expr: Expr | undefined): string | undefined {
  if (!expr) return undefined;
  switch (expr.type) {
    case 'path':
      return expr.names[0]?.text;
    case 'and':
    case 'or':
    case 'compare':
    case 'arithmetic':
      return firstName(expr.left) ?? firstName(expr.right);
    case 'not':
      return firstName(expr.operand);
    case 'is':
    case 'relation':
      return firstName(expr.subject);
    case 'state':
      return firstName(expr.subject);
    case 'call':
      return firstName(expr.args[0]);
    default:
      return undefined;
  }
}
