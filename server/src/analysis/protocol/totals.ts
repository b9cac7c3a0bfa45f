import {
  addRanges,
  bareUnit,
  coverRanges,
  type Dimension,
  makeRange,
  multiplyRanges,
  type Quantity,
  type Range,
  unitsOf,
  withRange,
} from '@curette/shared';
import type { Environment, Evaluated, Unsaid } from '../rules/evaluate.ts';
import type { Chunk } from './chunks.ts';
import { type BodyMass, convertedAmount, isAll, perBodyMass } from './converted-amount.ts';
import type { Assumption, Flow, StepFlow } from './flow.ts';
import { DOES_NOT, givingOf, type Part } from './giving.ts';
import type { Thing } from './things.ts';

/** What counts of all that happens: only some steps, only where some is found. */
export interface Counted {
  readonly steps?: ReadonlySet<StepFlow> | undefined;
  /** what is found, by finding; what may happen or not, by its key */
  readonly found?: ReadonlyMap<string, string> | undefined;
}

/**
 * What steps use up of a thing over some visits, from the path that uses least to the one that uses most. Options of a decision stand
 * instead of one another, what may happen adds from nothing, a repetition from once to as often as it may; lanes add up; a path that
 * stops uses nothing more.
 *
 * @param wanted the measure it has to come in; undefined: that of the first step
 */
export function totalOf(
  visits: readonly (readonly Chunk[])[],
  thing: Thing,
  wanted: Dimension | undefined,
  mass: BodyMass,
  env: Environment,
  counted: Counted,
): Evaluated {
  const measure = wanted ?? ownMeasure(visits, thing);
  if (!measure) return { type: 'unknown', missing: `how much of ${thing.label} is used up` };
  const summing: Summing = { thing, measure, env, mass, counted };
  let sum: Part = nothing;
  for (const chunks of visits) {
    for (const chunk of chunks) {
      const part = partOf(summing, chunk);
      if ('missing' in part) return { type: 'unknown', ...part };
      sum = inOrder(sum, part);
    }
    // A visit that every path leaves early is not the end of the protocol.
    if (!sum.through) sum = { ...sum, through: sum.ended, ended: undefined };
  }
  const range = covering(sum.through, sum.ended) ?? none;
  const unit = sum.unit ?? unitsOf(measure)[0] ?? bareUnit(measure);
  const quantity: Quantity = { dimension: measure, range, unit };
  if (!sum.all) return { type: 'quantity', quantity };
  // However often the rest of it is used up, it is no more than there was.
  const listed = convertedAmount(
    { thing, amount: undefined, written: undefined, unsaid: undefined },
    measure,
    mass,
    env,
  );
  if ('missing' in listed) return { type: 'unknown', ...listed };
  const { lo, hi } = listed.range;
  const capped = makeRange(Math.min(range.lo, lo), Math.min(range.hi, hi), false, false);
  return { type: 'quantity', quantity: withRange(quantity, capped) };
}

/** Whether an amount of a thing is written per body mass. */
export function isPerBodyMass(visits: readonly (readonly Chunk[])[], thing: Thing): boolean {
  return visits.some((chunks) =>
    chunks.some((chunk) =>
      givingOf(chunk)
        .steps.get(thing)
        ?.some((step) => step.plan.uses.some((use) => use.thing === thing && perBodyMass(use.written))),
    ),
  );
}

/** What one step uses up of a thing, in a measure; undefined where that cannot be told. */
export function shareOf(
  step: StepFlow,
  thing: Thing,
  measure: Dimension,
  mass: BodyMass,
  env: Environment,
): Quantity | undefined {
  const counted: Counted = { steps: new Set([step]) };
  const chunk: Chunk = { items: [step] };
  const share = totalOf([[chunk]], thing, measure, mass, env, counted);
  return share.type === 'quantity' ? share.quantity : undefined;
}

interface Summing {
  readonly thing: Thing;
  readonly measure: Dimension;
  readonly env: Environment;
  readonly mass: BodyMass;
  readonly counted: Counted;
}

const none: Range = makeRange(0, 0, false, false);
const nothing: Part = { through: none, ended: undefined, unit: undefined, all: false };

function ownMeasure(visits: readonly (readonly Chunk[])[], thing: Thing): Dimension | undefined {
  for (const chunks of visits)
    for (const chunk of chunks)
      for (const step of givingOf(chunk).steps.get(thing) ?? [])
        for (const use of step.plan.uses) if (use.thing === thing && use.amount) return use.amount.dimension;
  return thing.amount?.type === 'quantity' ? thing.amount.quantity.dimension : undefined;
}

function partOf(summing: Summing, chunk: Chunk): Part | Unsaid {
  const { thing, measure, counted } = summing;
  const giving = givingOf(chunk);
  const steps = giving.steps.get(thing);
  if (!steps && !giving.stops) return nothing;
  // What hangs on what is asked, or on a body mass that is being solved for, is not kept.
  const kept =
    !counted.steps && !counted.found && !steps?.some((step) => step.plan.uses.some((use) => perBodyMass(use.written)));
  const key = `${thing.name} ${measure.key}`;
  const known = kept ? giving.known.get(key) : undefined;
  if (known && known.thing === thing) return known.part;
  const part = sumOf(summing, chunk.items);
  if (kept) giving.known.set(key, { thing, part });
  return part;
}

function sumOf(summing: Summing, items: readonly Flow[]): Part | Unsaid {
  let sum: Part = nothing;
  for (const flow of items) {
    const part = partIn(summing, flow);
    if ('missing' in part) return part;
    sum = inOrder(sum, part);
  }
  return sum;
}

function partIn(summing: Summing, flow: Flow): Part | Unsaid {
  const { found } = summing.counted;
  switch (flow.type) {
    case 'step':
      return usedIn(summing, flow);
    case 'call':
      return sumOf(summing, flow.items);
    case 'decide': {
      const open = flow.branches.filter((branch) =>
        [branch.assumption, ...branch.also].every((one) => mayBe(one, found)),
      );
      return eitherOf(open.map((branch) => sumOf(summing, branch.items)));
    }
    case 'together':
      return sideBySide(flow.lanes.map((lane) => sumOf(summing, lane.items)));
    case 'repeat': {
      const part = sumOf(summing, flow.items);
      return 'missing' in part ? part : repeated(part, flow.atMost ?? Number.POSITIVE_INFINITY);
    }
    case 'verify':
      return flow.otherwise ? eitherOf([nothing, sumOf(summing, flow.otherwise)]) : nothing;
    case 'complication': {
      const happens = found?.get(flow.assumption.key);
      if (happens === DOES_NOT) return nothing;
      const part = sumOf(summing, flow.items);
      return happens === undefined ? eitherOf([nothing, part]) : part;
    }
    case 'stop':
      return { ...nothing, through: undefined, ended: none };
    case 'pause':
    case 'wait':
    case 'plain':
      return nothing;
    default:
      return flow satisfies never;
  }
}

function mayBe({ key, values }: Assumption, found: Counted['found']): boolean {
  const value = found?.get(key);
  return value === undefined || values.has(value);
}

function usedIn(summing: Summing, flow: StepFlow): Part | Unsaid {
  const { thing, counted } = summing;
  if (counted.steps && !counted.steps.has(flow)) return nothing;
  let sum: Part = nothing;
  for (const use of flow.plan.uses) {
    if (use.thing !== thing) continue;
    const amount = convertedAmount(use, summing.measure, summing.mass, summing.env);
    if ('missing' in amount) return amount;
    sum = inOrder(sum, { through: amount.range, ended: undefined, unit: amount.unit, all: isAll(use) });
  }
  return sum;
}

function inOrder(first: Part, second: Part): Part {
  if (!first.through) return first;
  const { through, ended } = second;
  return {
    through: through && addRanges(first.through, through),
    ended: covering(first.ended, ended && addRanges(first.through, ended)),
    unit: first.unit ?? second.unit,
    all: first.all || second.all,
  };
}

function eitherOf(parts: readonly (Part | Unsaid)[]): Part | Unsaid {
  let either: Part | undefined;
  for (const part of parts) {
    if ('missing' in part) return part;
    either = either
      ? {
          through: covering(either.through, part.through),
          ended: covering(either.ended, part.ended),
          unit: either.unit ?? part.unit,
          all: either.all || part.all,
        }
      : part;
  }
  return either ?? nothing;
}

/** Where a lane stops, the others may stand anywhere between their beginning and their end. */
function sideBySide(lanes: readonly (Part | Unsaid)[]): Part | Unsaid {
  let sum: Part = nothing;
  let ended: Range | undefined;
  for (const [index, lane] of lanes.entries()) {
    if ('missing' in lane) return lane;
    if (lane.ended) {
      let until: Range = lane.ended;
      for (const [other, beside] of lanes.entries())
        if (other !== index && !('missing' in beside)) {
          const most = covering(beside.through, beside.ended)?.hi ?? 0;
          until = addRanges(until, makeRange(0, most, false, false));
        }
      ended = covering(ended, until);
    }
    sum = {
      through: sum.through && lane.through && addRanges(sum.through, lane.through),
      ended: undefined,
      unit: sum.unit ?? lane.unit,
      all: sum.all || lane.all,
    };
  }
  return { ...sum, ended };
}

function repeated(part: Part, most: number): Part {
  const times = (range: Range, lo: number, hi: number) => multiplyRanges(range, makeRange(lo, hi, false, false));
  const { through, ended } = part;
  return {
    ...part,
    through: through && times(through, 1, most),
    ended: ended && (through ? addRanges(times(through, 0, most - 1), ended) : ended),
  };
}

function covering(one: Range | undefined, other: Range | undefined): Range | undefined {
  return one && other ? coverRanges(one, other) : (one ?? other);
}
