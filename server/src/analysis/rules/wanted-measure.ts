import type { Expr } from '@curette/grammar';
import { type Dimension, divideDimensions, multiplyDimensions } from '@curette/shared';

/** What one operand has to measure, the other being known, for the whole to measure what is wanted. */
export function leftOver(
  op: '+' | '-' | '*' | '/',
  known: 'left' | 'right',
  dimension: Dimension,
  wanted: Dimension | undefined,
): Dimension | undefined {
  switch (op) {
    case '+':
    case '-':
      return wanted ?? dimension;
    case '*':
      return wanted && divideDimensions(wanted, dimension);
    case '/':
      if (!wanted) return dimension;
      return known === 'right' ? multiplyDimensions(wanted, dimension) : divideDimensions(dimension, wanted);
    default:
      return op satisfies never;
  }
}

/** Whether an expression asks for a total. */
export function asksTotal(expr: Expr | undefined): boolean {
  switch (expr?.type) {
    case 'call':
      return expr.name.text === 'total' || expr.args.some(asksTotal);
    case 'arithmetic':
    case 'compare':
    case 'and':
    case 'or':
      return asksTotal(expr.left) || asksTotal(expr.right);
    case 'not':
      return asksTotal(expr.operand);
    default:
      return false;
  }
}
