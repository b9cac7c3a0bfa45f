/** Whether two lists hold the same things, each the very same object, in the same order. */
export function sameItems(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((item, place) => item === b[place]);
}
