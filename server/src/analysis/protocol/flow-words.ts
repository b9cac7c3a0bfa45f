import { dimension, exactly, parseUnit, type Quantity, unitsOf } from '@curette/shared';
import type { Place } from '../../problems/problem.ts';
import { placeOf } from '../model.ts';
import { type Flow, siteOf } from './flow.ts';
import type { Thing } from './things.ts';

/** A way a thing can stand, in words: the state, since when, and what must have happened. */
export interface Way {
  readonly state: string;
  /** the step that brought it there; undefined: nothing has been done to it yet */
  readonly since: string | undefined;
  readonly when: string;
}

/** "debride socket", as the protocol's own words say it */
export function labelOf(flow: Flow | undefined): string {
  if (!flow) return 'an earlier step';
  switch (flow.type) {
    case 'step':
    case 'call': {
      const [first] = flow.step.fillings.values();
      const thing = first?.type === 'things' ? first.things.map((one) => one.thing.label).join(', ') : '';
      return thing ? `${flow.verb.replaceAll('_', ' ')} ${thing}` : flow.verb.replaceAll('_', ' ');
    }
    case 'pause':
      return flow.pause?.label.toLowerCase() ?? flow.name.replaceAll('_', ' ');
    case 'decide':
    case 'verify':
    case 'complication':
    case 'stop':
      return flow.label;
    case 'wait':
      return 'the wait';
    case 'together':
      return 'work side by side';
    case 'repeat':
      return 'the repetition';
    case 'plain':
      return 'the note';
    default:
      return flow satisfies never;
  }
}

/** The verb of a step; of anything else, what it is called. */
export function verbOf(flow: Flow): string {
  return flow.type === 'step' || flow.type === 'call' ? flow.verb.replaceAll('_', ' ') : labelOf(flow);
}

/** Where a thing is named in an event; the event, where it is not named. */
export function placeAtThing(flow: Flow, thing: Thing): Place {
  if (flow.call) return flow.call;
  if (flow.type === 'step' || flow.type === 'call')
    for (const filling of flow.step.fillings.values())
      if (filling.type === 'things')
        for (const { thing: other, span } of filling.things)
          if (other === thing) return placeOf(flow.file, flow.statement, span);
  return siteOf(flow);
}

/** Seconds as a time in the unit a person would choose. */
export function timeQuantity(seconds: number): Quantity {
  const code =
    seconds >= 8 * 604_800
      ? 'wk'
      : seconds >= 172_800
        ? 'd'
        : seconds >= 7200
          ? 'h'
          : seconds >= 60 || seconds === 0
            ? 'min'
            : 's';
  const parsed = parseUnit(code);
  const unit = parsed.ok ? parsed.unit : unitsOf(dimension('time'))[0];
  if (!unit) throw new Error(`there is no unit ${code}`);
  return exactly(seconds / unit.factor, unit);
}
