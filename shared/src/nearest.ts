/**
 * "Did you mean": the candidate a misspelt name most likely stands for.
 *
 * Same letters in another case win; then the smallest edit distance (optimal string alignment: insert, delete,
 * replace, swap of neighbours), which may be at most a third of the name's length and at least one. If nothing is
 * that near there is no guess.
 */
export function nearest(name: string, candidates: Iterable<string>): string | undefined {
  return nearestFew(name, candidates, 1)[0];
}

/** The up to `most` candidates that are equally near, when the nearest is near enough; in the candidates' order. */
export function nearestFew(name: string, candidates: Iterable<string>, most: number): string[] {
  const furthest = Math.floor(Math.max(name.length, 3) / 3);
  const lower = name.toLowerCase();
  let near: string[] = [];
  let least = furthest;
  for (const candidate of new Set(candidates)) {
    if (candidate === name) continue;
    const distance = candidate.toLowerCase() === lower ? 0 : editDistance(name, candidate, least);
    if (distance > least) continue;
    if (distance < least) near = [];
    least = distance;
    near.push(candidate);
  }
  return near.slice(0, most);
}

/**
 * Optimal string alignment distance between two words, in edits. Stops early and answers `furthest + 1` once every
 * alignment needs more than `furthest` edits.
 */
export function editDistance(a: string, b: string, furthest = Number.POSITIVE_INFINITY): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    let least = i;
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let cost = Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (last[j - 1] ?? 0) + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        cost = Math.min(cost, (beforeLast[j - 2] ?? 0) + 1);
      }
      row.push(cost);
      least = Math.min(least, cost);
    }
    if (least > furthest) return furthest + 1;
    beforeLast = last;
    last = row;
  }
  return last[b.length] ?? 0;
}
