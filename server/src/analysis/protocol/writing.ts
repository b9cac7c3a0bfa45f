import { parse } from '@curette/grammar';
import type { Module } from '../names/module.ts';
import { type Flow, forEachFlow } from './flow.ts';
import { type Lowering, lowerItems } from './lower.ts';
import type { Writing } from './mends.ts';
import type { Thing, Things } from './things.ts';

/** How a line offered as a mend is tried out, and how verbs are used in this protocol. */
export function writingOf(
  module: Module,
  things: Things,
  lowering: Lowering,
  visits: readonly { readonly items: readonly Flow[] }[],
): Writing {
  return {
    module,
    things,
    isRight: (line) => {
      const tried = parse(`protocol p {\nvisit v {\n${line}\n}\n}`).body.items[0]?.body?.items[0]?.body?.items ?? [];
      const flows = lowerItems({ ...lowering, known: new WeakMap() }, tried);
      return flows.length === 1 && flows.every((flow) => flow.problems.length === 0);
    },
    taken: (verb, preposition) => {
      const taken: Thing[] = [];
      for (const visit of visits)
        forEachFlow(visit.items, (flow) => {
          if (flow.type !== 'step' || flow.verb !== verb) return;
          for (const slot of flow.step.action?.slots ?? []) {
            const filling = slot.preposition === preposition ? flow.step.fillings.get(slot.name) : undefined;
            if (filling?.type === 'things') taken.push(...filling.things.map((other) => other.thing));
          }
        });
      return taken;
    },
  };
}
