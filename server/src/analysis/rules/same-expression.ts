import type { Expr } from '@curette/grammar';

/** Whether two expressions are written alike, where `name` in the one stands for `other` in the other. */
export function isSameExpression(one: Expr | undefined, two: Expr | undefined, name: string, other: string): boolean {
  return written(one, name) === written(two, other);
}

/** An expression without its places, with one name left open. */
function written(expr: Expr | undefined, open: string): string | undefined {
  return JSON.stringify(expr, (key, value: unknown) => {
    if (key === 'start' || key === 'end') return undefined;
    if (key !== 'names' || !Array.isArray(value)) return value;
    const texts = value.map(({ text }: { readonly text: string }) => text);
    return texts[0] === open ? ['', ...texts.slice(1)] : texts;
  });
}
