import { type Content, createWorkspace } from '@curette/server';
import { type BenchDocument, protocolOf, slip, slipAt } from './document.ts';
import { calibrate, figure, quantile, table } from './figures.ts';

/** Other protocols that lie around, and how many of them are open as well. */
const NEIGHBOURS = 999;
const NEIGHBOURS_OPEN = 20;

const POLICY = `use std/perioperative

source house "Operating rules of the unit" {
  strength local_policy
}

rule house_counts "Every piece is counted" {
  order    pause sign_in before pause sign_out
  severity error
  why      "What was not counted in cannot be counted out"
  source   house
}
`;

/**
 * Keystroke → facts in this process: one letter typed in the middle makes an error, taking it away mends it. The time
 * runs from the change to the facts of every open file.
 */
export function keystrokes({ quick, sizes }: { readonly quick: boolean; readonly sizes: readonly number[] }): string {
  const rows: string[][] = [];
  for (const lines of sizes)
    for (const files of [1, NEIGHBOURS + 1]) {
      calibrate();
      const spent = measure(lines, files, quick ? 200 : 1000);
      rows.push([
        String(lines),
        files.toLocaleString('en'),
        figure(spent.first),
        figure(quantile(spent.edits, 0.5)),
        figure(quantile(spent.edits, 0.95)),
        figure(quantile(spent.edits, 1)),
      ]);
    }
  return table(['lines', 'files', 'first facts ms', 'keystroke p50 ms', 'p95', 'max'], rows);
}

function measure(lines: number, files: number, edits: number): { readonly first: number; readonly edits: number[] } {
  const alone = files === 1;
  const document = protocolOf(lines, alone ? [] : ['../policy']);
  const neighbour = new TextEncoder().encode(protocolOf(100, ['../policy']).lines.join('\n'));
  const policy = new TextEncoder().encode(POLICY);
  const read = (id: string): Content => {
    if (alone) return { type: 'absent' };
    if (id === 'policy.curette') return { type: 'bytes', bytes: policy };
    return id.startsWith('protocols/other_') ? { type: 'bytes', bytes: neighbour } : { type: 'absent' };
  };
  const workspace = createWorkspace(read, () => '2026-01-01');
  const began = performance.now();
  workspace.open(MAIN, `${document.lines.join('\n')}\n`);
  const problems = workspace.facts(MAIN)?.problems;
  const first = performance.now() - began;
  if (errors(problems) > 0) throw new Error(`the document is not sound: ${problems?.[0]?.message}`);
  for (let other = 0; other < Math.min(NEIGHBOURS_OPEN, files - 1); other++)
    workspace.open(`protocols/other_${other}.curette`, protocolOf(100, ['../policy']).lines.join('\n'));
  // The rest of the neighbours are known too, as they are once somebody has searched the workspace.
  for (let other = NEIGHBOURS_OPEN; other < files - 1; other++)
    workspace.snapshot().file(`protocols/other_${other}.curette`);

  const at = offsetOf(document);
  const spent: number[] = [];
  const warmUp = 100;
  for (let edit = 0; edit < edits + warmUp; edit++) {
    const faulty = edit % 2 === 0;
    const start = performance.now();
    workspace.change(MAIN, [
      faulty ? { start: at, end: at, text: slip } : { start: at, end: at + slip.length, text: '' },
    ]);
    for (const id of workspace.openIds()) workspace.facts(id);
    const took = performance.now() - start;
    if (edit >= warmUp) spent.push(took);
    const found = errors(workspace.facts(MAIN)?.problems);
    if (faulty ? found === 0 : found > 0) throw new Error(`edit ${edit}: ${found} errors`);
  }
  return { first, edits: spent };
}

const MAIN = 'protocols/main.curette';

function errors(problems: readonly { readonly severity: string }[] | undefined): number {
  if (problems === undefined) throw new Error('no facts');
  return problems.filter(({ severity }) => severity === 'error').length;
}

function offsetOf(document: BenchDocument): number {
  const { line, character } = slipAt(document, document.sites.length >> 1);
  return document.lines.slice(0, line).reduce((sum, text) => sum + text.length + 1, character);
}
