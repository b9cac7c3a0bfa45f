import { type Flow, forEachFlow } from '../analysis/protocol/flow.ts';
import type { Thing } from '../analysis/protocol/things.ts';
import type { FileId } from '../problems/problem.ts';
import type { Checked, Stretch } from './checked.ts';
import { type NamedAt, namedAt } from './named.ts';
import { type Reference, referencesWithin } from './references.ts';
import { stepAt, surroundingsAt } from './surroundings.ts';

/** A place where the same is named; `write`: where it is declared, or where its state or its value becomes another. */
export interface DocumentHighlight extends Stretch {
  readonly access: 'read' | 'write';
}

/** Every place of a file that names what stands at an offset. */
export function documentHighlights(checked: Checked, id: FileId, offset: number): readonly DocumentHighlight[] {
  const asked = namedAt(checked, id, offset);
  if (!asked || asked.named.sort === 'file') return [];
  return referencesWithin(checked, id, asked.named).map((at) => ({
    file: at.file,
    start: at.start,
    end: at.end,
    access: at.declares || changes(checked, at) ? 'write' : 'read',
  }));
}

function changes(checked: Checked, at: Reference): boolean {
  const { statement, start } = at.around.path.at(-1) ?? {};
  if (!statement || start === undefined) return false;
  const from = at.start - start;
  switch (statement.type) {
    case 'value':
      return statement.name.start === from;
    case 'apply':
      return at.named.sort === 'figures';
    case 'makes':
      return statement.effects.some(
        ({ subject, state }) => state?.start === from || subject.names.at(-1)?.start === from,
      );
    case 'uses up':
      return statement.thing?.names.at(-1)?.start === from;
    case 'step':
      return changedInStep(checked, at);
    default:
      return false;
  }
}

/** Whether a step brings the thing that stands there into another state, or uses some of it up. */
function changedInStep(checked: Checked, { file, start, around }: NamedAt): boolean {
  const { statement, start: from } = around.path.at(-1) ?? {};
  if (statement?.type !== 'step' || from === undefined) return false;
  const full = surroundingsAt(checked, file, start) ?? around;
  const read = stepAt(full, statement);
  if (!read?.action) return false;
  for (const [slot, filling] of read.fillings) {
    if (filling.type !== 'things') continue;
    const here = filling.things.find(({ span }) => span.start <= start - from && start - from < span.end);
    if (!here) continue;
    if (read.action.type === 'action')
      return [...read.action.makes, ...read.action.usesUp].some(({ path }) => path[0] === slot && path.length === 1);
    const flow = full.flow(statement.id);
    return flow?.type === 'call' && changesThing(flow.items, here.thing);
  }
  return false;
}

/** Inside of a procedure that is called. */
function changesThing(items: readonly Flow[], thing: Thing): boolean {
  let found = false;
  forEachFlow(items, (flow) => {
    if (flow.type !== 'step' || flow.step.action?.type !== 'action') return;
    const changed = [...flow.step.action.makes, ...flow.step.action.usesUp];
    for (const [slot, filling] of flow.step.fillings)
      if (filling.type === 'things' && filling.things.some((one) => one.thing.name === thing.name))
        found ||= changed.some(({ path }) => path[0] === slot && path.length === 1);
  });
  return found;
}
