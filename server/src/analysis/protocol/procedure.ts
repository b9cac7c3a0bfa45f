import type { ProcedureStatement } from '@curette/grammar';
import { notJudged } from '../../problems/not_judged.ts';
import { problemAt, type Report } from '../../problems/problem.ts';
import { type Procedure, placeOf, type SlotModel } from '../model.ts';
import type { Module } from '../names/module.ts';
import { forEachFlow } from './flow.ts';
import { HANGS_ON_THINGS, lowerItems } from './lower.ts';
import { type NameScope, procedureScope } from './name-scope.ts';
import { placesOnly, type Thing } from './things.ts';

/**
 * What is wrong with a procedure's own lines, whoever uses it. States, duties and clocks hang on what it is used with: they are followed
 * where it is used.
 */
export function checkProcedure(
  module: Module,
  statement: ProcedureStatement,
  procedure: Procedure,
  report: Report,
): void {
  for (const slot of procedure.slots)
    if (slot.accepts.type === 'quantity')
      report(
        problemAt(notJudged, placeOf(module.id, statement, statement.verb ?? statement.head), {
          what: `a measure passed to a procedure (${slot.name.replaceAll('_', ' ')})`,
        }),
      );
  const flows = lowerItems(
    {
      scope: slotScope(module, procedure.slots),
      rules: [],
      monitors: [],
      known: new WeakMap(),
      prefix: '',
      call: undefined,
      calling: [procedure],
      found: undefined,
    },
    statement.body?.items ?? [],
  );
  forEachFlow(flows, (flow) => {
    // A step that hangs on what a slot's thing is and states is judged where that thing is known.
    for (const problem of flow.problems) if (!HANGS_ON_THINGS.has(problem.code)) report(problem);
  });
}

/** What names mean inside a procedure of which nothing is known but its slots: each stands for something of its kind. */
export function slotScope(module: Module, slots: readonly SlotModel[]): NameScope {
  const bound = new Map<string, readonly Thing[]>();
  for (const { name, accepts } of slots)
    if (accepts.type === 'kind')
      bound.set(name, [
        {
          name,
          label: name.replaceAll('_', ' '),
          kind: accepts.kind,
          entry: undefined,
          group: 'given',
          statement: undefined,
          own: new Map(),
          values: new Map(),
          gaps: new Map(),
          amount: undefined,
          conditions: undefined,
          firstTrack: 0,
        },
      ]);
  return procedureScope(module, placesOnly(module), bound);
}
