/**
 * Two worked exercises of PERT and the critical path method, in days.
 *
 * nine: textbook exercise of an advertising firm with its solution (public course file p2vl9tn): the three lengths, their means and
 * variances, and the sums along the paths are read there; the times of the passes forth and back are worked out from them.
 *
 * fourteen: textbook exercise of fourteen activities (wizedu.com question 717873): the three lengths and the times of A to F are read
 * there; the rest is worked out from them.
 */
export interface Row {
  readonly name: string;
  readonly after: readonly string[];
  readonly shortest: number;
  readonly usual: number;
  readonly longest: number;
  readonly mean: number;
  readonly variance: number;
  readonly earliestStart: number;
  readonly earliestFinish: number;
  readonly latestStart: number;
  readonly latestFinish: number;
  readonly slack: number;
}

export const nine = rows(`
  A -   5,6,7    6.0000 0.1111  0       6.0000  1.0000  7.0000  1.0
  B -   8,8,11   8.5000 0.2500  0       8.5000  2.0000  10.5000 2.0
  C A   6,8,11   8.1667 0.6944  6.0000  14.1667 7.0000  15.1667 1.0
  D -   9,12,15  12.000 1.0000  0       12.0000 0       12.0000 0
  E C   5,6,9    6.3333 0.4444  14.1667 20.5000 15.1667 21.5000 1.0
  F D   5,6,7    6.0000 0.1111  12.0000 18.0000 12.0000 18.0000 0
  G F   2,3,7    3.5000 0.6944  18.0000 21.5000 18.0000 21.5000 0
  H B   4,4,5    4.1667 0.0278  8.5000  12.6667 10.5000 14.6667 2.0
  I H   5,7,8    6.8333 0.2500  12.6667 19.5000 14.6667 21.5000 2.0
`);

export const fourteen = rows(`
  A -   5,5,7    5.3333 0.1111  0       5.3333  0       5.3333  0
  B -   1,2,5    2.3333 0.4444  0       2.3333  8.0000  10.3333 8.0
  C A   5,5,5    5.0000 0       5.3333  10.3333 5.3333  10.3333 0
  D A   4,8,13   8.1667 2.2500  5.3333  13.5000 7.1667  15.3333 1.8333
  E B,C 1,10,17  9.6667 7.1111  10.3333 20.0000 10.3333 20.0000 0
  F D   1,5,7    4.6667 1.0000  13.5000 18.1667 15.3333 20.0000 1.8333
  G D   2,6,9    5.8333 1.3611  13.5000 19.3333 18.5000 24.3333 5.0
  H E,F 4,4,6    4.3333 0.1111  20.0000 24.3333 20.0000 24.3333 0
  I G,H 2,7,10   6.6667 1.7778  24.3333 31.0000 24.3333 31.0000 0
  J I   2,4,7    4.1667 0.6944  31.0000 35.1667 33.5000 37.6667 2.5
  K I   6,10,13  9.8333 1.3611  31.0000 40.8333 31.0000 40.8333 0
  L J   2,6,6    5.3333 0.4444  35.1667 40.5000 37.6667 43.0000 2.5
  M K   2,2,3    2.1667 0.0278  40.8333 43.0000 40.8333 43.0000 0
  N L,M 7,7,12   7.8333 0.6944  43.0000 50.8333 43.0000 50.8333 0
`);

/** The rows of both tables by their names, for tests that go through each. */
export const everyRow = [
  ...nine.map((row) => ['nine', row] as const),
  ...fourteen.map((row) => ['fourteen', row] as const),
];

function rows(text: string): Row[] {
  return text
    .trim()
    .split('\n')
    .map((line) => {
      const [name = '', after = '', lengths = '', ...figures] = line.trim().split(/\s+/);
      const [shortest, usual, longest] = lengths.split(',').map(Number);
      const [mean, variance, earliestStart, earliestFinish, latestStart, latestFinish, slack] = figures.map(Number);
      const row = {
        shortest,
        usual,
        longest,
        mean,
        variance,
        earliestStart,
        earliestFinish,
        latestStart,
        latestFinish,
        slack,
      };
      for (const [column, value] of Object.entries(row))
        if (value === undefined || Number.isNaN(value)) throw new Error(`${name}: no ${column}`);
      return { name, after: after === '-' ? [] : after.split(','), ...row } as Row;
    });
}
