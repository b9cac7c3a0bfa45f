import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { forEachStatement, format, parse, reparse } from '@curette/grammar';
import * as z from 'zod';
import { protocolOf } from './document.ts';
import { calibrate, figure, median, quantile, table, times } from './figures.ts';
import type { Peers } from './peers.ts';

/** The argument that makes this program one measurement: its garbage and warm code are no other parser's. */
export const parseOnce = '--parse-once';

const sizes = [100, 1000];

const Measured = z.object({ bytes: z.number(), steps: z.number(), times: z.array(z.number()) });
type Measured = z.infer<typeof Measured>;

/**
 * Text → typed tree with places, beside other parsers on the same number of bytes, each in its own syntax. Every parser and
 * size has a process of its own; the rounds take turns, so that a slow spell of the machine falls on all.
 */
export function parsing({ quick, peers }: { readonly quick: boolean; readonly peers: Peers | undefined }): string {
  const ours = 'Curette, typed tree';
  const run = (name: string, kB: number): Measured => {
    const command =
      name === ours ? [fileURLToPath(import.meta.url), parseOnce] : [join(peers?.folder ?? '', 'parse.mjs'), name];
    return Measured.parse(JSON.parse(execFileSync(process.execPath, [...command, String(kB)], { encoding: 'utf8' })));
  };
  const names = [ours, ...(peers === undefined ? [] : peerNames(peers))];
  const measured = new Map<string, Measured[]>();
  for (let round = 0; round < (quick ? 1 : 3); round++) {
    calibrate();
    for (const kB of sizes) {
      for (const name of names)
        measured.set(`${name} ${kB}`, [...(measured.get(`${name} ${kB}`) ?? []), run(name, kB)]);
    }
  }
  const rows = sizes.flatMap((kB) =>
    names.map((name) => {
      const speeds = (key: string): number[] =>
        (measured.get(key) ?? []).flatMap(({ bytes, times: spent }) => spent.map((ms) => bytes / 1000 / ms));
      const own = speeds(`${name} ${kB}`);
      return [
        name,
        String(kB),
        figure(median(own)),
        `${figure(quantile(own, 0.05))} … ${figure(quantile(own, 0.95))}`,
        times(median(own), median(speeds(`${ours} ${kB}`))),
      ];
    }),
  );
  return `${table(['parser', 'kB', 'MB/s', 'slow … fast', 'is'], rows)}\n\nReading one changed letter again: ${oneLetter(quick)}\nLaying out, every line indented wrongly: ${layouts(quick)}`;
}

function peerNames({ folder }: Peers): string[] {
  return z
    .array(z.string())
    .parse(JSON.parse(execFileSync(process.execPath, [join(folder, 'parse.mjs')], { encoding: 'utf8' })));
}

/** One measurement of ours: three runs to warm up, then nine. Printed as JSON for the process that started this one. */
export function measureParse(kB: number): void {
  const text = protocol(kB);
  let steps = 0;
  forEachStatement(parse(text), (statement) => {
    if (statement.flaws.length > 0) throw new Error('the text has flaws');
    steps++;
  });
  if (steps < text.length / 100) throw new Error(`only ${steps} lines were found`);
  const spent: number[] = [];
  for (let run = -3; run < 9; run++) {
    const began = performance.now();
    parse(text);
    if (run >= 0) spent.push(performance.now() - began);
  }
  process.stdout.write(JSON.stringify({ bytes: text.length, steps, times: spent }));
}

/** A protocol of that size. */
function protocol(kB: number): string {
  const perLine = protocolOf(1000).lines.join('\n').length / 1000;
  return `${protocolOf(Math.ceil((kB * 1000) / perLine)).lines.join('\n')}\n`;
}

/** Medians of laying a file out, reading it included. */
function layouts(quick: boolean): string {
  return [100, 1000, 5000]
    .map((lines) => {
      const text = `${protocolOf(lines)
        .lines.map((line) => line.trim())
        .join('\n')}\n`;
      const spent: number[] = [];
      for (let run = quick ? -3 : -10; run < (quick ? 9 : 30); run++) {
        const began = performance.now();
        const { text: laidOut } = format(text);
        if (run >= 0) spent.push(performance.now() - began);
        if (laidOut === undefined || laidOut === text) throw new Error('the text was not laid out');
      }
      return `${lines.toLocaleString('en')} lines ${figure(median(spent))} ms (p95 ${figure(quantile(spent, 0.95))})`;
    })
    .join(', ');
}

function oneLetter(quick: boolean): string {
  return [100, 1000, 5000]
    .map((lines) => {
      let text = `${protocolOf(lines).lines.join('\n')}\n`;
      let tree = parse(text);
      const at = text.indexOf('saline', text.length >> 1) + 3;
      const spent: number[] = [];
      for (let edit = 0; edit < (quick ? 300 : 1000); edit++) {
        const [oldEnd, by] = edit % 2 === 0 ? [at, 'x'] : [at + 1, ''];
        text = text.slice(0, at) + by + text.slice(oldEnd);
        const began = performance.now();
        tree = reparse(tree, text, { start: at, oldEnd, newEnd: at + by.length });
        if (edit >= 100) spent.push(performance.now() - began);
      }
      return `${lines.toLocaleString('en')} lines ${figure(median(spent))} ms (p95 ${figure(quantile(spent, 0.95))})`;
    })
    .join(', ');
}
