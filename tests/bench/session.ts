import { resolve } from 'node:path';
import { filesOf, randomSession } from '../support/session.ts';
import { figure, table } from './figures.ts';

/**
 * Five thousand steps of an editor at random on the demo workspace, half of them with an editor that is told of problems, half with one
 * that asks. The test `lsp/session` takes a few hundred.
 */
export async function longSession({ quick }: { readonly quick: boolean }): Promise<string> {
  const steps = quick ? 250 : 2500;
  const program = ['--expose-gc', `--require=${resolve('tests/support/memory.cjs')}`, resolve('client/dist/server.js')];
  const files = filesOf(resolve('examples'));
  const asked = Number(process.env.CURETTE_SEED);
  const seed = Number.isInteger(asked) ? asked : 2026;
  const rows: string[][] = [];
  const notes: string[] = [];
  for (const problems of ['told', 'asked'] as const) {
    const began = performance.now();
    const outcome = await randomSession({ program, files, steps, seed, problems, compareEvery: steps / 5 });
    rows.push([
      problems,
      String(steps),
      figure((performance.now() - began) / 1000),
      String(outcome.differences.length),
      String(outcome.failures.length),
      outcome.said === '' ? 'empty' : `${outcome.said.split('\n').length} lines`,
      outcome.memory.map(figure).join(' → '),
    ]);
    for (const { step, what, here, fresh } of outcome.differences.slice(0, 5))
      notes.push(`Step ${step}, ${what}:\n  here  ${here.slice(0, 600)}\n  fresh ${fresh.slice(0, 600)}`);
    for (const failure of outcome.failures.slice(0, 5)) notes.push(failure.slice(0, 600));
    if (outcome.said) notes.push(outcome.said.slice(0, 2000));
    const done = Object.entries(outcome.done).sort(([, a], [, b]) => b - a);
    notes.push(`Problems ${problems}: ${done.map(([what, count]) => `${what} ${count}`).join(', ')}.`);
  }
  const head = ['problems are', 'steps', 's', 'other than a fresh start', 'failed', 'log', 'MiB held with all closed'];
  return [table(head, rows), `Seed ${seed}.`, ...notes].join('\n\n');
}
