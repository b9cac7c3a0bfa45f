import type { Name, StatementOf } from '@curette/grammar';
import { emptyBlock } from '../../problems/empty_block.ts';
import { optionMissing } from '../../problems/option_missing.ts';
import { optionTooWide } from '../../problems/option_too_wide.ts';
import { optionUnknown } from '../../problems/option_unknown.ts';
import { optionUnreachable } from '../../problems/option_unreachable.ts';
import { problemAt, type Report } from '../../problems/problem.ts';
import { unknownName } from '../../problems/unknown_name.ts';
import { listWords } from '../../problems/words.ts';
import { type Finding, placeOf } from '../model.ts';
import { visibleNames } from '../names/module.ts';
import { checkRepeatedNames } from '../names/repeated.ts';
import { findingNamed } from '../names/resolve.ts';
import { isCovered, type Matrix, uncovered } from './coverage.ts';
import { sayFinding } from './finding-words.ts';
import type { Assumption, Branch, DecideFlow } from './flow.ts';
import { flowId, type Lowering, lowerItems, planned } from './lower.ts';
import { emptyPlan, type StepPlan } from './plan.ts';

type Row = readonly (ReadonlySet<string> | undefined)[];

/** Lowers a decision: each option a branch, and whether the options cover all that may be found. */
export function lowerDecide(
  context: Lowering,
  item: StatementOf<'decide'>,
  report: Report,
): Pick<DecideFlow, 'label' | 'findings' | 'branches'> {
  const { module } = context.scope;
  const findings = item.findings.map((name) => resolveFindingName(context, item, name, report));
  const known = findings.filter((finding) => finding !== undefined);
  checkRepeatedNames(
    module.id,
    item.findings.map((name) => ({ name, statement: item })),
    report,
  );
  const complete = known.length === findings.length && known.length > 0;
  const label = item.label?.value ?? known.map((finding) => finding.label).join(', ');
  const key = known.length === 1 && known[0] ? known[0].name : `#${flowId(context, item)}`;

  const options = (item.body?.items ?? []).flatMap((line) =>
    line.type === 'option' || line.type === 'otherwise' ? [line] : [],
  );
  if (options.length === 0)
    report(problemAt(emptyBlock, placeOf(module.id, item, item.head), { what: 'decide', wants: 'option' }));
  const rows = options.map(
    (option): Row =>
      option.type === 'otherwise' || !complete
        ? known.map(() => undefined)
        : known.map((finding, column) => readCell(context, option, option.values[column], finding, report)),
  );

  for (const option of options) if (option.type === 'option' && complete) checkWidth(context, option, known, report);

  const matrix: Matrix = { domains: known.map((finding) => [...finding.values.keys()]), rows };
  if (complete && options.length > 0) {
    const { missing, cutShort } = uncovered(matrix);
    if (missing.length > 0 || cutShort)
      report(
        problemAt(optionMissing, placeOf(module.id, item, item.findings[0] ?? item.head), {
          label,
          missing: missing.map((row) => row.map((value, column) => ({ finding: known[column] as Finding, value }))),
          cutShort,
          file: module.id,
          statement: item.id,
        }),
      );
    options.forEach((option, index) => {
      // What names only findings that there are not is told as that.
      if (rows[index]?.some((cell) => cell?.size === 0)) return;
      if (isCovered(matrix, index))
        report(
          problemAt(optionUnreachable, placeOf(module.id, option, option.head), {
            label: branchLabel(option, rows[index] ?? [], known),
            file: module.id,
            statement: option.id,
          }),
        );
    });
  }

  const sayOptions = (values: ReadonlySet<string>): string => {
    const labels = [...values].flatMap((value) => {
      const option = options[Number(value)];
      return option ? [branchLabel(option, rows[Number(value)] ?? [], known).toLowerCase()] : [];
    });
    return `${label.toLowerCase()}: ${listWords(labels)}`;
  };
  const open = context.found && complete ? narrowed(matrix, known, context.found) : matrix;
  const left = options
    .map((_, index) => index)
    .filter((index) => open === matrix || (mayBe(open, index) && !isCovered(open, index)));
  const branches = left.flatMap((index): Branch[] => {
    const option = options[index];
    if (!option) return [];
    const row = rows[index] ?? [];
    const words = branchLabel(option, row, known);
    const taken = remaining(open, index);
    const single = known.length === 1 ? taken[0] : undefined;
    const reached = complete ? known.map((_, column) => reachedValues(open, index, column)) : [];
    const also =
      known.length === 1
        ? []
        : known.flatMap((finding, column): Assumption[] => {
            const values = complete ? reached[column] : row[column];
            const all = values === undefined || (!row[column] && values.size >= finding.values.size);
            return all ? [] : [{ key: finding.name, values, of: finding.values.size, say: sayFinding(finding) }];
          });
    const assumption: Assumption = {
      key,
      values: single ?? new Set([String(index)]),
      of: single ? (open.domains[0]?.length ?? 1) : left.length,
      say: single && known[0] ? sayFinding(known[0]) : sayOptions,
    };
    const alone = known.length > 1 && complete && isBlock(open, index, reached);
    return [
      {
        id: `${flowId(context, option)} found`,
        statement: option,
        label: words,
        assumption,
        also,
        remembered: alone ? also : [assumption, ...also],
        plan: complete ? planFound(context, option, known, reached, report) : emptyPlan,
        items: lowerItems(context, option.body?.items ?? []),
      },
    ];
  });
  return { label, findings: known, branches };
}

/** Whether a row takes some of what may be found. */
function mayBe({ domains, rows }: Matrix, index: number): boolean {
  return domains.every((values, column) => {
    const cell = rows[index]?.[column];
    return !cell || values.some((value) => cell.has(value));
  });
}

/** The same options, asked only about what is found. */
function narrowed(matrix: Matrix, findings: readonly Finding[], found: ReadonlyMap<string, string>): Matrix {
  if (!findings.some(({ name }) => found.has(name))) return matrix;
  const domains = matrix.domains.map((values, column) => {
    const value = found.get(findings[column]?.name ?? '');
    return value !== undefined && values.includes(value) ? [value] : values;
  });
  return { ...matrix, domains };
}

/** What rules make of each value that leads to an option. */
function planFound(
  context: Lowering,
  option: StatementOf<'option' | 'otherwise'>,
  findings: readonly Finding[],
  reached: readonly ReadonlySet<string>[],
  report: Report,
): StepPlan {
  const plans = findings.flatMap((finding, column) =>
    [...(reached[column] ?? [])].map((value) =>
      planned(context, option, { type: 'finding', finding, value, among: reached[column] ?? new Set() }, report),
    ),
  );
  return {
    ...emptyPlan,
    checks: plans.flatMap(({ checks }) => checks),
    marks: plans.flatMap(({ marks }) => marks),
  };
}

/** The values of one finding with which an option is reached, whatever the others are. */
function reachedValues(matrix: Matrix, index: number, column: number): ReadonlySet<string> {
  const values = (matrix.domains[column] ?? []).filter((value) => {
    if (!(matrix.rows[index]?.[column]?.has(value) ?? true)) return false;
    const rows = matrix.rows.map((row, number) =>
      number === index ? row.map((cell, other) => (other === column ? new Set([value]) : cell)) : row,
    );
    return !isCovered({ ...matrix, rows }, index);
  });
  return new Set(values);
}

/** Whether an option is reached with every combination of the values that it is reached with. */
function isBlock(matrix: Matrix, index: number, reached: readonly ReadonlySet<string>[]): boolean {
  return matrix.rows
    .slice(0, index)
    .every((row) =>
      row.some((cell, column) => cell && [...(reached[column] ?? [])].every((value) => !cell.has(value))),
    );
}

/** For a decision over one finding: the values that reach an option, those of options above taken away. */
function remaining(matrix: Matrix, index: number): readonly ReadonlySet<string>[] {
  if (matrix.domains.length !== 1) return [];
  const before = new Set<string>();
  for (const row of matrix.rows.slice(0, index))
    for (const value of row[0] ?? matrix.domains[0] ?? []) before.add(value);
  const own = matrix.rows[index]?.[0] ?? new Set(matrix.domains[0]);
  return [new Set([...own].filter((value) => !before.has(value) && matrix.domains[0]?.includes(value)))];
}

function resolveFindingName(
  context: Lowering,
  item: StatementOf<'decide'>,
  name: Name,
  report: Report,
): Finding | undefined {
  const { module } = context.scope;
  const finding = findingNamed(module, name.text);
  if (finding) return finding;
  const place = placeOf(module.id, item, name);
  report(
    problemAt(unknownName, place, {
      name: name.text,
      wanted: 'finding',
      candidates: visibleNames(module, 'findings'),
      library: module.elsewhere(['findings'], name.text),
      place,
    }),
  );
  return undefined;
}

function readCell(
  context: Lowering,
  option: StatementOf<'option'>,
  names: readonly Name[] | undefined,
  finding: Finding,
  report: Report,
): ReadonlySet<string> | undefined {
  if (!names || names.length === 0 || names.some((name) => name.text === 'any')) return undefined;
  const values = new Set<string>();
  for (const name of names) {
    if (finding.values.has(name.text)) values.add(name.text);
    else {
      const place = placeOf(context.scope.module.id, option, name);
      report(problemAt(optionUnknown, place, { value: name.text, finding, place }));
    }
  }
  return values;
}

/** A comma parts what is said of one finding from what is said of the next; there is no more of it than there are findings. */
function checkWidth(
  context: Lowering,
  option: StatementOf<'option'>,
  findings: readonly Finding[],
  report: Report,
): void {
  const extra = option.values.slice(findings.length).flat();
  const [from, to] = [extra[0], extra.at(-1)];
  if (!from || !to) return;
  const before = option.values[findings.length - 1]?.at(-1);
  const place = placeOf(context.scope.module.id, option, { start: from.start, end: to.end });
  const [only] = findings;
  report(
    problemAt(optionTooWide, place, {
      findings: findings.map((finding) => finding.label),
      values: option.values.length,
      or:
        only && before && findings.length === 1 && extra.every((name) => only.values.has(name.text))
          ? {
              place: placeOf(context.scope.module.id, option, { start: before.end, end: to.end }),
              text: extra.map((name) => ` or ${name.text}`).join(''),
            }
          : undefined,
    }),
  );
}

function branchLabel(option: StatementOf<'option' | 'otherwise'>, row: Row, findings: readonly Finding[]): string {
  if (option.type === 'otherwise') return 'otherwise';
  if (option.label) return option.label.value;
  return row
    .map((cell, column) =>
      cell ? [...cell].map((value) => findings[column]?.values.get(value) ?? value).join(' or ') : 'any',
    )
    .join(', ');
}
