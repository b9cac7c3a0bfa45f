import type { Expr, PathNode, QuantityNode } from '@curette/grammar';
import { dimension, numberDimension, type Quantity } from '@curette/shared';

/**
 * What an expression adds up to: for each product of names and properties, how many times it is taken. Keys are the products with
 * the measure of the factor, so that only what measures alike is ever added.
 */
export type Linear = ReadonlyMap<string, Term>;

export interface Term {
  /** in base units */
  readonly factor: number;
  /** powers of the names and properties multiplied; none: the factor alone */
  readonly atoms: ReadonlyMap<string, number>;
  /** the measure that the factor has; empty: a bare number */
  readonly dimension: string;
  /** whether the product may be below nought */
  readonly signed: boolean;
  /** the product is the lesser or the greater of several */
  readonly choice: { readonly fold: 'min' | 'max'; readonly args: readonly Expr[] } | undefined;
}

/** How the names and figures of an expression are read. */
export interface Reading {
  readonly quantity: (node: QuantityNode) => Quantity | undefined;
  readonly key: (expr: Expr) => string;
  readonly signed: (path: PathNode) => boolean;
}

/** The sum that an expression is; undefined when it is none, or one of its figures is not a single value. */
export function linearOf(expr: Expr | undefined, reading: Reading): Linear | undefined {
  if (!expr) return undefined;
  switch (expr.type) {
    case 'quantity': {
      const quantity = reading.quantity(expr);
      if (!quantity || quantity.range.lo !== quantity.range.hi || !Number.isFinite(quantity.range.lo)) return undefined;
      return sum([
        {
          factor: quantity.range.lo,
          atoms: new Map(),
          dimension: measureOf(quantity),
          signed: false,
          choice: undefined,
        },
      ]);
    }
    case 'path':
      return atom(reading.key(expr), reading.signed(expr), undefined);
    case 'call': {
      const fold = expr.name.text;
      const choice = fold === 'min' || fold === 'max' ? ({ fold, args: expr.args } as const) : undefined;
      return atom(reading.key(expr), false, choice);
    }
    case 'arithmetic': {
      const left = linearOf(expr.left, reading);
      const right = linearOf(expr.right, reading);
      if (!left || !right) return undefined;
      switch (expr.op) {
        case '+':
          return difference(left, negated(right));
        case '-':
          return difference(left, right);
        case '*':
          return product(left, right);
        case '/': {
          const [by, ...more] = termsOf(right);
          // A sum in the divisor makes no sum.
          if (!by || more.length > 0 || by.factor === 0) return undefined;
          const inverse: Term = {
            ...by,
            factor: 1 / by.factor,
            atoms: new Map([...by.atoms].map(([name, power]) => [name, -power])),
            dimension: by.dimension === NUMBER ? NUMBER : `/(${by.dimension})`,
            choice: undefined,
          };
          return product(left, sum([inverse]));
        }
        default:
          return undefined;
      }
    }
    default:
      return undefined;
  }
}

/** The terms of a sum that count. */
export function termsOf(form: Linear): readonly Term[] {
  return [...form.values()];
}

/** What stands alone in a sum, without a name; of several measures the first. */
export function constantOf(form: Linear): number {
  return termsOf(form).find(({ atoms }) => atoms.size === 0)?.factor ?? 0;
}

export function difference(a: Linear, b: Linear): Linear {
  return sum([...termsOf(a), ...termsOf(negated(b))]);
}

export function negated(form: Linear): Linear {
  return scaled(form, -1);
}

/** A sum taken so many times. */
export function scaled(form: Linear, times: number): Linear {
  return sum(termsOf(form).map((term) => ({ ...term, factor: term.factor * times })));
}

/** The measure of a bare number, and of a share. */
const NUMBER = '';

function measureOf({ dimension: measured }: Quantity): string {
  return measured === numberDimension || measured === dimension('ratio') ? NUMBER : measured.key;
}

function atom(key: string, signed: boolean, choice: Term['choice']): Linear {
  return sum([{ factor: 1, atoms: new Map([[key, 1]]), dimension: NUMBER, signed, choice }]);
}

function product(a: Linear, b: Linear): Linear | undefined {
  const terms: Term[] = [];
  for (const one of termsOf(a))
    for (const other of termsOf(b)) {
      const choice = one.choice ?? other.choice;
      // Only as many times as a figure says can the lesser of several be taken.
      if (choice && one.atoms.size > 0 && other.atoms.size > 0) return undefined;
      const atoms = new Map(one.atoms);
      for (const [name, power] of other.atoms) atoms.set(name, (atoms.get(name) ?? 0) + power);
      for (const [name, power] of atoms) if (power === 0) atoms.delete(name);
      terms.push({
        factor: one.factor * other.factor,
        atoms,
        dimension: [one.dimension, other.dimension]
          .filter((part) => part !== NUMBER)
          .sort()
          .join('.'),
        signed: one.signed || other.signed,
        choice,
      });
    }
  return sum(terms);
}

function sum(terms: readonly Term[]): Linear {
  const form = new Map<string, Term>();
  for (const term of terms) {
    const atoms = [...term.atoms].sort(([a], [b]) => (a < b ? -1 : 1)).map(([name, power]) => `${name}^${power}`);
    const key = `${atoms.join(' ')}|${term.dimension}`;
    const factor = (form.get(key)?.factor ?? 0) + term.factor;
    if (factor === 0) form.delete(key);
    else form.set(key, { ...term, factor });
  }
  return form;
}
