import type { Edit, Mend } from '../../problems/problem.ts';
import { descendsFrom, fitsKind } from '../kinds/subkind.ts';
import type { Action, SlotModel, Track } from '../model.ts';
import type { Module } from '../names/module.ts';
import { actionsVisible } from '../names/resolve.ts';
import type { Flow } from './flow.ts';
import type { Thing, Things } from './things.ts';

/**
 * The step that brings a thing from one state into one of others, written out: the action of the library that does so, with the things
 * of this protocol in its slots. Undefined when no single step does, or when a measure would have to be invented.
 */
export function stepInto(
  module: Module,
  things: Things,
  thing: Thing,
  track: Track,
  from: string,
  into: readonly string[],
  near: Flow | undefined,
): string | undefined {
  for (const action of actionsVisible(module))
    for (const effect of action.makes) {
      const [root, ...rest] = effect.path;
      if (rest.length > 0 || root === undefined || !into.includes(effect.state)) continue;
      if (effect.state !== from && !track.moves.get(from)?.has(effect.state)) continue;
      const slot = action.slots.find((other) => other.name === root);
      if (slot?.accepts.type !== 'kind' || !fitsKind(thing.kind, slot.accepts.kind)) continue;
      if (action.needs.some((need) => asksOtherState(need.condition, root, track, from))) continue;
      const text = writeStep(action, slot, thing, things, near);
      if (text !== undefined) return text;
    }
  return undefined;
}

/** A line inserted before or after an event, or at the end of a block. */
export function insertStep(
  title: string,
  text: string,
  at:
    | Pick<Extract<Edit, { type: 'insert' }>, 'where' | 'file' | 'statement'>
    | Pick<Extract<Edit, { type: 'append' }>, 'file' | 'statement'>,
): Mend {
  const edit: Edit =
    'where' in at ? { type: 'insert', ...at, lines: [text] } : { type: 'append', ...at, lines: [text] };
  return { title, edits: [edit] };
}

/** An action that itself needs another state of the same track first does not help from here. */
function asksOtherState(
  condition: Action['needs'][number]['condition'],
  root: string,
  track: Track,
  from: string,
): boolean {
  return (
    condition.type === 'state' &&
    condition.subject.names.length === 1 &&
    condition.subject.names[0]?.text === root &&
    track.states.has(condition.state.text) &&
    condition.state.text !== from
  );
}

function writeStep(
  action: Action,
  main: SlotModel,
  thing: Thing,
  things: Things,
  near: Flow | undefined,
): string | undefined {
  const words = [action.verb];
  for (const slot of action.slots) {
    if (slot.optional && slot !== main) continue;
    const filler = slot === main ? thing.name : fillerFor(slot, thing, things, near);
    if (filler === undefined) return undefined;
    if (slot.preposition) words.push(slot.preposition);
    words.push(filler);
  }
  return words.join(' ');
}

function fillerFor(slot: SlotModel, thing: Thing, things: Things, near: Flow | undefined): string | undefined {
  if (slot.accepts.type !== 'kind') return undefined;
  const { kind } = slot.accepts;
  // What the thing was last handled with or put into is the likeliest: a pack comes out of where it went in.
  if (near?.type === 'step')
    for (const filling of near.step.fillings.values())
      if (filling.type === 'things')
        for (const { thing: other } of filling.things)
          if (other !== thing && fitsKind(other.kind, kind)) return other.name;
  for (const other of things.byName.values()) if (other !== thing && fitsKind(other.kind, kind)) return other.name;
  // An instrument may be named by its kind; a place must be meant.
  return descendsFrom(kind, 'instrument') ? kind.name : undefined;
}
