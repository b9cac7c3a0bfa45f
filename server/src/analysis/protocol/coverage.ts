/**
 * Coverage of decisions: which combinations of findings no option names. Rows are options, columns findings, a cell the set of values
 * it takes (undefined: any). The method is the matrix specialisation of Maranget, "Warnings for pattern matching", Journal of
 * Functional Programming 17 (2007) 387–421: it looks at a value of one column at a time and never lists the product.
 */
export interface Matrix {
  /** all values of each column */
  readonly domains: readonly (readonly string[])[];
  readonly rows: readonly (readonly (ReadonlySet<string> | undefined)[])[];
}

export interface Coverage {
  /** combinations without an option, at most `most`; undefined in a place: any value */
  readonly missing: readonly (readonly (string | undefined)[])[];
  /** looking further would have cost too much; there may be more, or some not looked at */
  readonly cutShort: boolean;
}

const MOST_LOOKS = 50_000;

/** The combinations of values that no row takes. */
export function uncovered(matrix: Matrix, most = 8): Coverage {
  const missing: (string | undefined)[][] = [];
  let looks = 0;
  let cutShort = false;
  const look = (column: number, rows: Matrix['rows'], prefix: readonly (string | undefined)[]): void => {
    if (missing.length >= most || cutShort) return;
    if (++looks > MOST_LOOKS) {
      cutShort = true;
      return;
    }
    if (rows.length === 0) {
      missing.push([...prefix, ...matrix.domains.slice(column).map(() => undefined)]);
      return;
    }
    if (column === matrix.domains.length || rows.some((row) => row.slice(column).every((cell) => cell === undefined)))
      return;
    if (rows.every((row) => row[column] === undefined)) {
      look(column + 1, rows, [...prefix, undefined]);
      return;
    }
    for (const value of matrix.domains[column] ?? [])
      look(
        column + 1,
        rows.filter((row) => row[column]?.has(value) ?? true),
        [...prefix, value],
      );
  };
  look(0, matrix.rows, []);
  return { missing, cutShort };
}

/** Whether rows before it already take every combination that row `index` takes. */
export function isCovered(matrix: Matrix, index: number): boolean {
  const row = matrix.rows[index];
  if (!row) return false;
  const domains = matrix.domains.map((values, column) => values.filter((value) => row[column]?.has(value) ?? true));
  const before = uncovered({ domains, rows: matrix.rows.slice(0, index) }, 1);
  return before.missing.length === 0 && !before.cutShort;
}
