import { cpus, loadavg } from 'node:os';

/** Of the values in order, the one below which the share `p` of them lies. NaN of none. */
export function quantile(values: readonly number[], p: number): number {
  const sorted = values.filter((value) => !Number.isNaN(value)).sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.ceil(p * sorted.length) - 1)] ?? Number.NaN;
}

export const median = (values: readonly number[]): number => quantile(values, 0.5);

/** Three figures that matter; a dash where nothing was measured. */
export function figure(value: number): string {
  if (!Number.isFinite(value)) return '–';
  return value >= 100 ? value.toFixed(0) : value.toPrecision(value < 0.1 ? 2 : 3);
}

/** How many times `value` is `own`. */
export function times(value: number, own: number): string {
  return Number.isFinite(value / own) ? `${figure(value / own)}×` : '–';
}

/** A table in Markdown: readable in a terminal, and pasted as it is. */
export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const widths = head.map((name, at) => Math.max(name.length, ...rows.map((row) => row[at]?.length ?? 0)));
  const line = (cells: readonly string[]): string =>
    `| ${cells.map((cell, at) => (at === 0 ? cell.padEnd(widths[at] ?? 0) : cell.padStart(widths[at] ?? 0))).join(' | ')} |`;
  const rule = `| ${widths.map((width, at) => (at === 0 ? '-'.repeat(width) : `${'-'.repeat(width - 1)}:`)).join(' | ')} |`;
  return [line(head), rule, ...rows.map(line)].join('\n');
}

const calibrations: number[] = [];

/** Does a fixed job between the measurements: how steadily the machine ran is told at the end. */
export function calibrate(): void {
  const text = JSON.stringify(Array.from({ length: 20_000 }, (_, id) => ({ id, name: `step ${id}` })));
  const runs = Array.from({ length: 9 }, () => {
    const began = performance.now();
    JSON.parse(text);
    return performance.now() - began;
  });
  calibrations.push(median(runs));
}

/** What was measured on. */
export function machine(): string {
  const cores = cpus();
  const job = calibrations.length === 0 ? '' : `; fixed job ${figure(median(calibrations))} ms`;
  const range =
    calibrations.length < 2
      ? ''
      : ` (${figure(Math.min(...calibrations))} … ${figure(Math.max(...calibrations))} between the measurements)`;
  const load = loadavg().map((value) => value.toFixed(2));
  return `Node ${process.version}, ${process.platform} ${process.arch}, ${cores.length} cores (${cores[0]?.model.trim()})${job}${range}; load ${load.join(' ')}`;
}
