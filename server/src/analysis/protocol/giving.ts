import type { Range, Unit } from '@curette/shared';
import type { Unsaid } from '../rules/evaluate.ts';
import { perChunk } from './chunks.ts';
import { type Assumption, type Flow, forEachFlow, innerLists, type StepFlow } from './flow.ts';
import type { Thing } from './things.ts';

/** What a stretch says of totals. */
export interface Giving {
  /** the steps that use up some of a thing */
  readonly steps: ReadonlyMap<Thing, readonly StepFlow[]>;
  /** things that steps name */
  readonly named: ReadonlySet<Thing>;
  /** what may be found or happen, where what is used up hangs on it */
  readonly open: ReadonlyMap<string, OpenQuestion>;
  readonly stops: boolean;
  /** what is used up of a thing, in a measure, as first asked for */
  readonly known: Map<string, { readonly thing: Thing; readonly part: Part | Unsaid }>;
}

/** What is not known of a run before it is there: a finding, or whether something happens. */
export interface OpenQuestion {
  readonly say: Assumption['say'];
  /** every value of it that options name */
  readonly values: ReadonlySet<string>;
  /** what some answer of it uses up */
  readonly about: ReadonlySet<Thing>;
  /** whether the run may come to a stop with some answer */
  readonly stops: boolean;
}

/**
 * What is used up on the paths through a stretch. `through`: on those that go on behind it, `ended`: on those that come to a stop in
 * it; undefined where there is none.
 */
export interface Part {
  readonly through: Range | undefined;
  readonly ended: Range | undefined;
  /** the unit to show it in; undefined while nothing is used up */
  readonly unit: Unit | undefined;
  /** whether a step uses up all there is */
  readonly all: boolean;
}

/** Looked through once for as long as a stretch is there. */
export const givingOf = perChunk(({ items }): Giving => {
  const steps = new Map<Thing, StepFlow[]>();
  const named = new Set<Thing>();
  let stops = false;
  forEachFlow(items, (flow) => {
    if (flow.type === 'stop') stops = true;
    if (flow.type === 'step' || flow.type === 'call') for (const thing of flow.step.named) named.add(thing);
    if (flow.type !== 'step') return;
    for (const { thing } of flow.plan.uses) {
      const list = steps.get(thing);
      if (!list) steps.set(thing, [flow]);
      else if (list.at(-1) !== flow) list.push(flow);
    }
  });
  return { steps, named, open: steps.size > 0 || stops ? openIn(items) : new Map(), stops, known: new Map() };
});

function openIn(items: readonly Flow[]): Giving['open'] {
  const open = new Map<string, OpenQuestion>();
  forEachFlow(items, (flow) => {
    if (flow.type !== 'decide' && flow.type !== 'complication') return;
    const about = new Set<Thing>();
    let stops = false;
    for (const inner of innerLists(flow))
      forEachFlow(inner, (other) => {
        if (other.type === 'stop') stops = true;
        if (other.type === 'step') for (const { thing } of other.plan.uses) about.add(thing);
      });
    if (about.size === 0 && !stops) return;
    const asked =
      flow.type === 'decide'
        ? flow.branches.flatMap((branch) => [branch.assumption, ...branch.also])
        : [{ ...flow.assumption, values: new Set([...flow.assumption.values, DOES_NOT]) }];
    for (const { key, values, say } of asked) mergeQuestion(open, key, { say, values, about, stops });
  });
  return open;
}

/** The same may be asked several times. */
export function mergeQuestion(into: Map<string, OpenQuestion>, key: string, question: OpenQuestion): void {
  const known = into.get(key);
  into.set(
    key,
    known
      ? {
          say: known.say,
          values: new Set([...known.values, ...question.values]),
          about: new Set([...known.about, ...question.about]),
          stops: known.stops || question.stops,
        }
      : question,
  );
}

/** Of what may happen or not: that it does not. */
export const DOES_NOT = 'no';
