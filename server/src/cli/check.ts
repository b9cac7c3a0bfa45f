import type { FileFacts } from '../analysis/analysis.ts';
import { offsetsOf } from '../analysis/locate.ts';
import { settingsFileOf } from '../analysis/settings.ts';
import { replacementsOf } from '../ide/apply-edit.ts';
import { cautionOf } from '../ide/cautioned.ts';
import { mendsOf } from '../ide/tried-mends.ts';
import type { Problem, Severity } from '../problems/problem.ts';
import { problemText, summaryText } from '../render/problem-text.ts';
import { problemJson, problemsJson } from '../render/problems-json.ts';
import { fileName } from '../render/text.ts';
import { type Input, openInputs } from './inputs.ts';
import { columns, painter, print } from './output.ts';
import { toolVersion } from './version.ts';

export interface CheckOptions {
  readonly format: 'text' | 'json';
  readonly failOn: 'error' | 'warning';
}

/** Checks the protocols that paths name and prints what is found. @returns the exit status */
export function check(paths: readonly string[], options: CheckOptions): number {
  const inputs = openInputs(paths.length > 0 ? paths : ['.'], (sentence) => process.stderr.write(`${sentence}\n`));
  const checked = inputs.map((input) => ({
    input,
    files: [...faultySettings(input), ...input.ids].map((id) => ({ id, facts: input.workspace.facts(id) })),
  }));
  switch (options.format) {
    case 'text':
      printText(checked);
      break;
    case 'json':
      printJson(checked);
      break;
    default:
      options.format satisfies never;
  }
  const files = checked.flatMap(({ files }) => files);
  if (files.some(({ facts }) => !facts || facts.file.trouble !== undefined)) return 2;
  const failing: readonly Severity[] = options.failOn === 'error' ? ['error'] : ['error', 'warning'];
  return files.some(({ facts }) => facts?.problems.some(({ severity }) => failing.includes(severity))) ? 1 : 0;
}

type Checked = readonly {
  readonly input: Input;
  readonly files: readonly { readonly id: string; readonly facts: FileFacts | undefined }[];
}[];

/** The settings that count for the protocols, where something is wrong with them. */
function faultySettings({ workspace, ids }: Input): ReadonlySet<string> {
  const snapshot = workspace.snapshot();
  const files = ids.flatMap((id) => settingsFileOf(snapshot, id)?.id ?? []);
  return new Set(files.filter((id) => workspace.facts(id)?.problems.length !== 0));
}

function printText(checked: Checked): void {
  const paint = painter();
  const width = columns();
  const all: Problem[] = [];
  let count = 0;
  for (const { input, files } of checked) {
    const name = (id: string) => fileName(input.name(id));
    for (const { id, facts } of files) {
      count += 1;
      if (!facts) print(`${name(id)} could not be read.\n\n`);
      for (const problem of inOrder(facts)) {
        all.push(problem);
        const told = { ...problem, mends: mendsOf(input.workspace, problem) };
        const caution = facts && cautionOf(facts, problem);
        print(`${problemText(told, input.workspace.snapshot().file, { width, paint, name }, caution)}\n\n`);
      }
    }
  }
  print(`${summaryText(all, count, paint)}\n`);
}

function printJson(checked: Checked): void {
  const output = problemsJson({
    toolVersion,
    files: checked.flatMap(({ input, files }) =>
      files.map(({ id, facts }) => ({ path: input.name(id), read: facts !== undefined && !facts.file.trouble })),
    ),
    problems: checked.flatMap(({ input, files }) =>
      files.flatMap(({ facts }) =>
        inOrder(facts).map((problem) =>
          problemJson(
            { ...problem, mends: mendsOf(input.workspace, problem) },
            input.workspace.snapshot().file,
            input.name,
            (mend) => replacementsOf(input.workspace, mend.edits),
            facts && cautionOf(facts, problem),
          ),
        ),
      ),
    ),
  });
  print(`${JSON.stringify(output, undefined, 2)}\n`);
}

/** As one reads the file. */
function inOrder(facts: FileFacts | undefined): readonly Problem[] {
  if (!facts) return [];
  const start = (problem: Problem) => offsetsOf(facts.file.tree, problem.place)?.start ?? 0;
  return facts.problems.toSorted((a, b) => start(a) - start(b));
}
