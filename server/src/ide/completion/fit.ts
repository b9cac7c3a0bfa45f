import { fitsKind } from '../../analysis/kinds/subkind.ts';
import type { Action, Procedure, SlotModel } from '../../analysis/model.ts';
import { type Module, visibleNames } from '../../analysis/names/module.ts';
import { actionsNamed } from '../../analysis/names/resolve.ts';
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
 * Why a thing can not stand in a slot where the cursor is, by its state: "dry here: wet it first". Undefined when it can, and when the
 * states are not known.
 */
export function hindrance(
  action: Action | Procedure,
  slot: SlotModel,
  thing: Thing,
  context: { readonly module: Module; readonly standing: () => Standing | undefined },
): string | undefined {
  const standing = context.standing();
  if (action.type !== 'action' || !standing) return undefined;
  for (const { condition } of action.needs) {
    if (condition.type !== 'state') continue;
    const [root, ...rest] = condition.subject.names;
    if (rest.length > 0 || root?.text !== slot.name) continue;
    const states = statesOf(thing, condition.state.text, standing);
    if (states.some((state) => state !== condition.state.text))
      return `${listWords(states.map(spoken))} here: ${mend(context.module, thing, states, condition.state.text)}`;
  }
  for (const { path, state } of action.makes) {
    if (path.length !== 1 || path[0] !== slot.name) continue;
    const track = trackWith(thing, state);
    const stuck = statesOf(thing, state, standing).filter((now) => now !== state && !track?.moves.get(now)?.has(state));
    if (stuck.length > 0) return `${listWords(stuck.map(spoken))} here: can not become ${spoken(state)}`;
  }
  return undefined;
}

/** In which states of the track that has `state` the thing may be. */
function statesOf(thing: Thing, state: string, standing: Standing): string[] {
  const track = trackWith(thing, state);
  return track ? [...new Set(standing.of(thing, track).map((one) => one.state))] : [];
}

/** What brings a thing from where it is to the state that is asked for: "wet it first". */
function mend(module: Module, thing: Thing, now: readonly string[], wanted: string): string {
  const moves = trackWith(thing, wanted)?.moves;
  const reachable = now.every((state) => state === wanted || moves?.get(state)?.has(wanted));
  const verbs = reachable ? verbsMaking(module, thing, wanted) : [];
  return verbs.length > 0 ? `${listWords(verbs.slice(0, 2).map(spoken))} it first` : `it must be ${spoken(wanted)}`;
}

const known = new WeakMap<Module, Map<string, readonly string[]>>();

function verbsMaking(module: Module, { kind }: Thing, wanted: string): readonly string[] {
  const ofModule = known.get(module) ?? new Map<string, readonly string[]>();
  known.set(module, ofModule);
  const key = `${kind.file} ${kind.name} ${wanted}`;
  const found =
    ofModule.get(key) ??
    [...visibleNames(module, 'verbs')].filter((verb) =>
      actionsNamed(module, verb).some(
        (action) =>
          action.type === 'action' &&
          action.makes.some(({ path, state }) => {
            const slot = action.slots.find(({ name }) => name === path[0]);
            return (
              path.length === 1 &&
              state === wanted &&
              slot?.accepts.type === 'kind' &&
              fitsKind(kind, slot.accepts.kind)
            );
          }),
      ),
    );
  ofModule.set(key, found);
  return found;
}
