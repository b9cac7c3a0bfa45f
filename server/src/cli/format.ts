import { accessSync, constants, readFileSync, realpathSync, statSync } from 'node:fs';
import { offsetsOf } from '../analysis/locate.ts';
import type { SourceFile } from '../analysis/snapshot.ts';
import { checkSyntax } from '../analysis/syntax.ts';
import { layOut } from '../ide/formatting.ts';
import type { FileId, Problem } from '../problems/problem.ts';
import { problemText } from '../render/problem-text.ts';
import { fileName } from '../render/text.ts';
import { type Input, openInputs } from './inputs.ts';
import { columns, painter, print, reason, UsageError, writeWhole } from './output.ts';

export interface FormatOptions {
  /** only says what would change */
  readonly check?: true;
}

type Outcome = 'as it was' | 'changed' | 'failed';

/**
 * Lays the protocols out that paths name. One that can not be read or written is told and left as it is; the others are done.
 * @returns the exit status: 2 when one failed, else 1 when something would change and is not to be written
 */
export function format(paths: readonly string[], options: FormatOptions): number {
  const inputs = openInputs(paths.length > 0 ? paths : ['.'], (sentence) => process.stderr.write(`${sentence}\n`));
  const outcomes = inputs.flatMap((input) => input.ids.map((id) => formatFile(input, id, options)));
  print(`${summary(outcomes, options)}\n`);
  if (outcomes.includes('failed')) return 2;
  return options.check && outcomes.includes('changed') ? 1 : 0;
}

function formatFile(input: Input, id: FileId, options: FormatOptions): Outcome {
  const name = fileName(input.name(id));
  const file = input.workspace.look(id);
  if (file === undefined) return failed(`${name} could not be read.`);
  const text = file.trouble ? undefined : layOut(file.text, file.tree).text;
  if (text === undefined) {
    const problem = firstProblem(file);
    const told = problem && problemText(problem, () => file, { width: columns(), paint: painter(), name: () => name });
    return failed(`${told ?? `${name} could not be read.`}\n${name} was left as it is.\n`);
  }
  if (text === file.text) return 'as it was';
  if (!options.check) {
    try {
      replace(input.name(id), text);
    } catch (error) {
      if (!(error instanceof UsageError)) throw error;
      return failed(error.message);
    }
  }
  print(`${options.check ? 'Would change' : 'Changed'} ${name}\n`);
  return 'changed';
}

/** What is found first in a file that can not be read. */
function firstProblem(file: SourceFile): Problem | undefined {
  const problems: Problem[] = [];
  checkSyntax(file, (problem) => problems.push(problem));
  const start = (problem: Problem) => offsetsOf(file.tree, problem.place)?.start ?? 0;
  return problems.toSorted((a, b) => start(a) - start(b))[0];
}

/** Writes what a link leads to, whole or not at all. A file that nobody may write to is not written to by its owner either. */
function replace(path: string, text: string): void {
  let real: string;
  let mark: string;
  try {
    real = realpathSync(path);
    if ((statSync(real).mode & 0o222) === 0) throw new UsageError(`${path} could not be written: it is read-only.`);
    accessSync(real, constants.W_OK);
    mark = readFileSync(real).subarray(0, 3).equals(BYTE_ORDER_MARK) ? '\ufeff' : '';
  } catch (error) {
    if (error instanceof UsageError) throw error;
    throw new UsageError(`${path} could not be written: ${reason(error)}.`);
  }
  writeWhole(real, mark + text);
}

const BYTE_ORDER_MARK = Buffer.from('\ufeff');

function failed(sentence: string): 'failed' {
  process.stderr.write(`${sentence}\n`);
  return 'failed';
}

function summary(outcomes: readonly Outcome[], { check }: FormatOptions): string {
  const count = (outcome: Outcome) => outcomes.filter((one) => one === outcome).length;
  const changed = count('changed');
  const failures = count('failed');
  const files = `${outcomes.length} ${outcomes.length === 1 ? 'file' : 'files'}`;
  const left = failures === 0 ? '' : `, ${failures} left as ${failures === 1 ? 'it is' : 'they are'}`;
  return `${files}: ${changed === 0 ? 'none' : changed} ${check ? 'would change' : 'changed'}${left}.`;
}
