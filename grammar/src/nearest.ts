/** The word that was most likely meant. */

/**
 * The one candidate within one slip (up to four letters) or two (longer words) of `word`; undefined when none or several
 * are as near. A slip is a letter too many, too few, another letter, or two letters swapped (optimal string alignment).
 */
export function nearestWord(word: string, candidates: Iterable<string>): string | undefined {
  if (word.length < 3 || word.length > 30) return undefined;
  let best: string | undefined;
  let least = (word.length > 4 ? 2 : 1) + 1;
  for (const candidate of candidates) {
    if (Math.abs(candidate.length - word.length) >= least + 1) continue;
    const slips = distance(word, candidate);
    if (slips < least) {
      least = slips;
      best = candidate;
    } else if (slips === least) best = undefined;
  }
  return best;
}

function distance(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row++) {
    const current = [row];
    for (let column = 1; column <= b.length; column++) {
      const same = a.charAt(row - 1) === b.charAt(column - 1);
      let slips = Math.min(at(last, column) + 1, at(current, column - 1) + 1, at(last, column - 1) + (same ? 0 : 1));
      const swapped =
        row > 1 &&
        column > 1 &&
        a.charAt(row - 1) === b.charAt(column - 2) &&
        a.charAt(row - 2) === b.charAt(column - 1);
      if (swapped) slips = Math.min(slips, at(beforeLast, column - 2) + 1);
      current.push(slips);
    }
    beforeLast = last;
    last = current;
  }
  return at(last, b.length);
}

function at(row: readonly number[], column: number): number {
  return row[column] ?? Number.POSITIVE_INFINITY;
}
