/** The question of a network of time, put to a solver for linear programs: each moment a variable, each limit a row. */
import loadHighs from 'highs';
import type { TimeNetwork } from '../../server/src/analysis/time/network.ts';

export interface LinearProgram {
  /** Whether times exist that keep all limits, links read as limits and joins as "not before". Stays loaded for the next two. */
  feasible(network: TimeNetwork): boolean;
  /** Of the network loaded last, which is feasible: the least and the most of `t[to] - t[from]`; Infinity where there is no end. */
  span(from: number, to: number): { readonly least: number; readonly most: number };
  dispose(): void;
}

/** One solver, for many networks one after the other. */
export async function linearProgram(): Promise<LinearProgram> {
  const highs = await loadHighs();
  const { modelStatus } = highs.constants;
  const model = highs.createModel();
  model.options.set('output_flag', false);

  const least = (from: number, to: number, sign: 1 | -1): number => {
    model.changeColCost(from, -sign);
    model.changeColCost(to, sign);
    const status = model.run().modelStatus;
    const value = model.getObjectiveValue();
    model.changeColCost(from, 0);
    model.changeColCost(to, 0);
    if (status === modelStatus.optimal) return value < -FAR / 2 ? Number.NEGATIVE_INFINITY : value;
    throw new Error(`the solver stopped with ${status}`);
  };
  return {
    feasible: (network) => {
      model.passModel(modelOf(network, highs.infinity));
      const status = model.run().modelStatus;
      if (status === modelStatus.optimal) return true;
      if (status === modelStatus.infeasible) return false;
      throw new Error(`the solver stopped with ${status}`);
    },
    span: (from, to) => ({ least: least(from, to, 1), most: 0 - least(from, to, -1) }),
    dispose: () => {
      model.dispose();
    },
  };
}

/**
 * Seconds, far beyond all that is asked about. No moment may be later, since the solver does not always tell what has no end from what it
 * could not solve; what lies about that far off is without end.
 */
const FAR = 1e7;

type ModelData = Parameters<Awaited<ReturnType<typeof loadHighs>>['createModel']>[0];

function modelOf(
  { points, limits, links, joins }: TimeNetwork,
  infinity: number,
): Extract<ModelData, { numCols: number }> {
  const notBefore = joins.flatMap(({ point, after }) =>
    after.map(({ from, delay }) => ({ from, to: point, lo: delay, hi: Number.POSITIVE_INFINITY })),
  );
  const rows = [...limits, ...links, ...notBefore];
  const end = (value: number): number => Math.max(-infinity, Math.min(infinity, value));
  return {
    numCols: points,
    numRows: rows.length,
    colCost: new Float64Array(points),
    colLower: new Float64Array(points),
    colUpper: Float64Array.from({ length: points }, (_, point) => (point === 0 ? 0 : FAR)),
    rowLower: rows.map(({ lo }) => end(lo)),
    rowUpper: rows.map(({ hi }) => end(hi)),
    matrix: {
      format: 'csr',
      numRows: rows.length,
      numCols: points,
      starts: Int32Array.from({ length: rows.length + 1 }, (_, row) => 2 * row),
      indices: Int32Array.from(rows.flatMap(({ from, to }) => [from, to])),
      values: Float64Array.from(rows.flatMap(() => [-1, 1])),
    },
  };
}
