import type { ProcedureStatement } from '@curette/grammar';
import { notJudged } from '../../problems/not_judged.ts';
import { problemAt, type Report } from '../../problems/problem.ts';
import { type Procedure, placeOf } from '../model.ts';
import type { Module } from '../names/module.ts';
import { forEachFlow } from './flow.ts';
import { HANGS_ON_THINGS, lowerItems } from './lower.ts';
import { procedureScope } from './name-scope.ts';
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
  const things = placesOnly(module);
  const bound = new Map<string, Thing>();
  for (const slot of procedure.slots) {
    if (slot.accepts.type === 'kind')
      bound.set(slot.name, {
        name: slot.name,
        label: slot.name.replaceAll('_', ' '),
        kind: slot.accepts.kind,
        entry: undefined,
        group: 'given',
        statement: undefined,
        values: new Map(),
        amount: undefined,
        firstTrack: 0,
      });
    else if (slot.accepts.type === 'quantity')
      report(
        problemAt(notJudged, placeOf(module.id, statement, statement.verb ?? statement.head), {
          what: `a measure passed to a procedure (${slot.name.replaceAll('_', ' ')})`,
        }),
      );
  }
  const flows = lowerItems(
    {
      scope: procedureScope(module, things, bound),
      rules: [],
      monitors: [],
      known: new WeakMap(),
      prefix: '',
      call: undefined,
      calling: [procedure],
    },
    statement.body?.items ?? [],
  );
  forEachFlow(flows, (flow) => {
    // A step that hangs on what a slot's thing is and states is judged where that thing is known.
    for (const problem of flow.problems) if (!HANGS_ON_THINGS.has(problem.code)) report(problem);
  });
}
