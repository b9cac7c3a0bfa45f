import { createWorkspace, type Workspace } from '@curette/server';
import { readClocks } from '../../server/src/analysis/protocol/clock-readings.ts';
import { visitNetwork } from '../../server/src/analysis/protocol/visit-network.ts';
import { consistency } from '../../server/src/analysis/time/consistency.ts';
import { judgeNetwork } from '../../server/src/analysis/time/controllability.ts';
import type { TimeNetwork } from '../../server/src/analysis/time/network.ts';
import { linearProgram } from '../support/linear-program.ts';
import { calibrate, figure, median, quantile, table, times } from './figures.ts';
import { VISIT, VISIT_SLIP, VISIT_STEPS } from './visit.ts';
import { visitShape } from './visit-shape.ts';

/** Milliseconds of work before the first run that counts: by then the engine has compiled what is run. */
const WARM_UP = 300;

const SIZES = [50, 200, 800, 2000];

/**
 * Networks in the shape of a visit, by size: whether a team can keep all limits, whether anybody could who chose all lengths, and the
 * second question put to a solver for linear programs. Then a visit written in the language, after a change of one letter.
 */
export async function timing({ quick }: { readonly quick: boolean }): Promise<string> {
  const program = await linearProgram();
  const rows = SIZES.map((points) => {
    calibrate();
    const network = visitShape(points);
    const judged = judgeNetwork(network);
    if (judged.answer !== 'holds') throw new Error(`${points} moments: ${judged.answer}`);
    if (!consistency(network).consistent || !program.feasible(network))
      throw new Error(`${points} moments: contradictory`);
    const runs = quick ? 5 : 15;
    return {
      points: network.points,
      parts: network.limits.length + network.links.length + network.joins.length,
      judge: measure(runs, () => judgeNetwork(network)),
      consistency: measure(runs, () => consistency(network)),
      program: measure(runs, () => program.feasible(network)),
    };
  });
  program.dispose();

  const networks = table(
    ['moments', 'limits and stretches', 'team can keep them ms', 'consistent ms', 'the solver ms', 'is'],
    rows.map((row) => [
      row.points.toLocaleString('en'),
      row.parts.toLocaleString('en'),
      figure(row.judge),
      figure(row.consistency),
      figure(row.program),
      times(row.program, row.consistency),
    ]),
  );
  const growth = (column: 'judge' | 'consistency' | 'program'): string =>
    exponent(rows.map((row) => [row.points, row[column]])).toFixed(2);
  const fitted = `With n moments the time grows as n^${growth('judge')}, n^${growth('consistency')} and n^${growth('program')}.`;
  return `${networks}\n\n${fitted}\n\n${writtenVisit(quick)}`;
}

/** The median of so many runs, milliseconds, after some that are not counted. A run too short to be timed is repeated within it. */
function measure(runs: number, work: () => void): number {
  const time = (repeats: number): number => {
    const began = performance.now();
    for (let repeat = 0; repeat < repeats; repeat++) work();
    return (performance.now() - began) / repeats;
  };
  for (const began = performance.now(); performance.now() - began < WARM_UP; ) time(1);
  const repeats = Math.max(1, Math.min(200, Math.ceil(2 / time(1))));
  return median(Array.from({ length: runs }, () => time(repeats)));
}

/** Least squares on the logarithms: `y` grows as `x` to this power. */
function exponent(points: readonly (readonly [number, number])[]): number {
  const logs = points.map(([x, y]) => [Math.log(x), Math.log(y)] as const);
  const mean = (at: 0 | 1): number => logs.reduce((sum, log) => sum + log[at], 0) / logs.length;
  const [x, y] = [mean(0), mean(1)];
  const sum = (value: (log: readonly [number, number]) => number): number =>
    logs.reduce((total, log) => total + value(log), 0);
  return sum((log) => (log[0] - x) * (log[1] - y)) / sum((log) => (log[0] - x) ** 2);
}

function writtenVisit(quick: boolean): string {
  const edits = quick ? 200 : 1000;
  calibrate();
  const workspace = createWorkspace(
    () => ({ type: 'absent' }),
    () => '2026-01-01',
  );
  const began = performance.now();
  workspace.open(MAIN, VISIT);
  const found = faults(workspace.facts(MAIN)?.problems);
  const first = performance.now() - began;
  if (found.length > 0) throw new Error(`the visit is not sound: ${found[0]?.message}`);

  const { at, text } = VISIT_SLIP;
  const spent: number[] = [];
  const warmUp = 100;
  for (let edit = 0; edit < edits + warmUp; edit++) {
    const faulty = edit % 2 === 0;
    const start = performance.now();
    workspace.change(MAIN, [faulty ? { start: at, end: at, text } : { start: at, end: at + text.length, text: '' }]);
    const problems = workspace.facts(MAIN)?.problems;
    if (edit >= warmUp) spent.push(performance.now() - start);
    const count = faults(problems).length;
    if (faulty ? count !== 1 : count > 0) throw new Error(`edit ${edit}: ${count} faults`);
  }
  const network = networkOf(workspace);
  const net = network();
  const runs = quick ? 20 : 100;
  return table(
    ['a written visit', 'first facts ms', 'keystroke p50 ms', 'p95', 'max', 'moments', 'as a network ms', 'judged ms'],
    [
      [
        `${VISIT_STEPS} steps`,
        figure(first),
        figure(quantile(spent, 0.5)),
        figure(quantile(spent, 0.95)),
        figure(quantile(spent, 1)),
        String(net.points),
        figure(measure(runs, network)),
        figure(measure(runs, () => judgeNetwork(net))),
      ],
    ],
  );
}

/** Makes the network of the visit anew each time it is called. */
function networkOf(workspace: Workspace): () => TimeNetwork {
  const protocol = workspace.facts(MAIN)?.protocols[0];
  const visit = protocol?.visits[0];
  if (!protocol || !visit) throw new Error('no visit');
  const asked = readClocks(protocol, visit).map(({ since, flow, least, most, when }) => ({
    since,
    until: flow.id,
    least,
    most,
    when,
  }));
  if (asked.length === 0) throw new Error('no limits');
  return () => {
    const lowered = visitNetwork(visit.items, asked);
    if (!lowered) throw new Error('too many paths');
    return lowered.network;
  };
}

const MAIN = 'protocols/main.curette';

/** What is wrong; what is only told does not count. */
function faults(problems: readonly { readonly severity: string; readonly message: string }[] | undefined) {
  if (problems === undefined) throw new Error('no facts');
  return problems.filter(({ severity }) => severity === 'error' || severity === 'warning');
}
