/** npm run faults: prints what the checker catches of the mistakes, and what it says about harmless edits. */
import { harmless } from './harmless.ts';
import { counts, createJudge } from './judge.ts';
import { reportOf } from './report.ts';
import { faults } from './table.ts';

const judge = createJudge();
const ofFaults = faults.map((row) => ({ row, told: judge.caught(row, judge.after(row)) }));
const ofHarmless = harmless.map((row) => ({ row, told: judge.after(row).some(counts) }));
process.stdout.write(`${reportOf(ofFaults, ofHarmless)}`);
const unexpected =
  ofFaults.some(({ row, told }) => told !== (row.missed === undefined)) ||
  ofHarmless.some(({ row, told }) => told !== (row.alarm !== undefined)) ||
  judge.before.length > 0;
for (const { file, line, name, message } of judge.before)
  process.stdout.write(`\nBefore any edit: ${file}:${line} ${name}: ${message}\n`);
// A mark that is no longer true is a failure too: the table says how things are.
if (unexpected) process.exitCode = 1;
