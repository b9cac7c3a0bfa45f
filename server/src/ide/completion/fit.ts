import { fitsKind } from '../../analysis/kinds/subkind.ts';
import type { Action, Procedure, SlotModel } from '../../analysis/model.ts';
import type { Thing } from '../../analysis/protocol/things.ts';
import { trackWith } from '../../analysis/protocol/track.ts';
import { listWords } from '../../problems/words.ts';
import { spoken } from '../as-written.ts';
import type { Standing } from '../states-at.ts';

/** Whether a thing is of the kind that a slot takes. */
export function fitsSlot(thing: Thing, slot: SlotModel): boolean {
  return slot.accepts.type === 'kind' && fitsKind(thing.kind, slot.accepts.kind);
}

/**
 * Why a thing can not stand in a slot where the cursor is, by its state: "dry, needs wetted". Undefined when it can, and when the
 * states are not known.
 */
export function hindrance(
  action: Action | Procedure,
  slot: SlotModel,
  thing: Thing,
  standing: Standing | undefined,
): string | undefined {
  if (action.type !== 'action' || !standing) return undefined;
  for (const { condition } of action.needs) {
    if (condition.type !== 'state') continue;
    const [root, ...rest] = condition.subject.names;
    if (rest.length > 0 || root?.text !== slot.name) continue;
    const states = statesOf(thing, condition.state.text, standing);
    if (states.some((state) => state !== condition.state.text))
      return `${listWords(states.map(spoken))}, needs ${spoken(condition.state.text)}`;
  }
  for (const { path, state } of action.makes) {
    if (path.length !== 1 || path[0] !== slot.name) continue;
    const track = trackWith(thing, state);
    const stuck = statesOf(thing, state, standing).filter((now) => now !== state && !track?.moves.get(now)?.has(state));
    if (stuck.length > 0) return `${listWords(stuck.map(spoken))}, can not become ${spoken(state)}`;
  }
  return undefined;
}

/** In which states of the track that has `state` the thing may be. */
function statesOf(thing: Thing, state: string, standing: Standing): string[] {
  const track = trackWith(thing, state);
  return track ? [...new Set(standing.of(thing, track).map((one) => one.state))] : [];
}
