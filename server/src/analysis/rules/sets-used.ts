import type { Expr, PathNode } from '@curette/grammar';
import type { PropertyValue, SetNote } from '../model.ts';
import { type Environment, evaluate } from './evaluate.ts';

/** The sets of figures that an expression takes figures from, each once. */
export function setsUsed(expr: Expr | undefined, environment: Environment): readonly SetNote[] {
  const found = new Map<string, SetNote>();
  const visit = (part: Expr | undefined): void => {
    switch (part?.type) {
      case 'path': {
        const set = setOfPath(part, environment);
        if (set) found.set(set.name, set);
        break;
      }
      case 'and':
      case 'or':
      case 'compare':
      case 'arithmetic':
        visit(part.left);
        visit(part.right);
        break;
      case 'not':
        visit(part.operand);
        break;
      case 'is':
      case 'state':
        visit(part.for);
        break;
      case 'call':
        for (const argument of part.args) visit(argument);
        break;
      default:
        break;
    }
  };
  visit(expr);
  return [...found.values()];
}

/** The set of figures that a path leads to: `d.ceiling`, `g.soak.longest`. */
export function setOfPath(path: PathNode, environment: Environment): SetNote | undefined {
  for (let end = 1; end < path.names.length; end++) {
    const owner = evaluate({ ...path, names: path.names.slice(0, end) }, environment);
    const name = path.names[end];
    const value: PropertyValue | undefined =
      owner.type === 'thing' && name ? owner.thing.values.get(name.text) : undefined;
    if (value?.set) return value.set;
  }
  return undefined;
}
