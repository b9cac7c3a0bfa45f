import type { Edit, Mend } from '../../problems/problem.ts';
import { descendsFrom, fitsKind, kindDistance } from '../kinds/subkind.ts';
import type { Action, SlotModel, Track } from '../model.ts';
import type { Module } from '../names/module.ts';
import { actionsVisible } from '../names/resolve.ts';
import type { Flow } from './flow.ts';
import type { Thing, Things } from './things.ts';

/** What writing a step out takes: whose things there are, what a line would mean, and how the same verb is used elsewhere. */
export interface Writing {
  readonly module: Module;
  readonly things: Things;
  /** whether a line of steps is right as far as it can be told by itself */
  readonly isRight: (line: string) => boolean;
  /** things that steps of a verb take after a preposition, in this protocol */
  readonly taken: (verb: string, preposition: string | undefined) => readonly Thing[];
}

/**
 * The step that brings a thing from one state into one of others, written out: the action of the library that does so, with the things
 * of this protocol in its slots. Undefined when no single step does, or when a measure would have to be invented.
 */
export function stepInto(
  writing: Writing,
  thing: Thing,
  track: Track,
  from: string,
  into: readonly string[],
  near: Flow | undefined,
): string | undefined {
  let second: string | undefined;
  for (const action of actionsVisible(writing.module))
    for (const effect of action.makes) {
      const [root, ...rest] = effect.path;
      if (rest.length > 0 || root === undefined || !into.includes(effect.state)) continue;
      if (effect.state !== from && !track.moves.get(from)?.has(effect.state)) continue;
      const slot = action.slots.find((other) => other.name === root);
      if (slot?.accepts.type !== 'kind' || !fitsKind(thing.kind, slot.accepts.kind)) continue;
      if (action.needs.some((need) => asksOtherState(need.condition, root, track, from))) continue;
      for (const line of writeStep(writing, action, slot, thing, near)) {
        if (writing.isRight(line)) return line;
        second ??= line;
      }
    }
  return second;
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

/** A thing may be put into a slot in several ways; more than these are not tried. */
const MOST_FILLERS = 4;

/** The step in every way its slots may be filled, likeliest first. */
function writeStep(
  writing: Writing,
  action: Action,
  main: SlotModel,
  thing: Thing,
  near: Flow | undefined,
): readonly string[] {
  let lines = [action.verb];
  for (const slot of action.slots) {
    if (slot.optional && slot !== main) continue;
    const fillers = slot === main ? [thing.name] : fillersFor(writing, action, slot, thing, near);
    const head = slot.preposition ? ` ${slot.preposition} ` : ' ';
    lines = lines.flatMap((line) => fillers.slice(0, MOST_FILLERS).map((filler) => `${line}${head}${filler}`));
  }
  return lines;
}

/** What may stand in a slot: what it was last handled with, what the verb takes elsewhere, the nearest kinds first. */
function fillersFor(
  writing: Writing,
  action: Action,
  slot: SlotModel,
  thing: Thing,
  near: Flow | undefined,
): readonly string[] {
  if (slot.accepts.type !== 'kind') return [];
  const { kind } = slot.accepts;
  const handled: Thing[] = [];
  if (near?.type === 'step')
    for (const filling of near.step.fillings.values())
      if (filling.type === 'things') handled.push(...filling.things.map((other) => other.thing));
  const listed = [...writing.things.byName.values()].sort(
    (a, b) =>
      (fitsKind(a.kind, kind) ? kindDistance(a.kind, kind) : 0) -
      (fitsKind(b.kind, kind) ? kindDistance(b.kind, kind) : 0),
  );
  const fitting = [...handled, ...writing.taken(action.verb, slot.preposition), ...listed]
    .filter((other) => other !== thing && fitsKind(other.kind, kind))
    .map((other) => other.name);
  // An instrument may be named by its kind; a place must be meant.
  if (fitting.length === 0 && descendsFrom(kind, 'instrument')) return [kind.name];
  return [...new Set(fitting)];
}
