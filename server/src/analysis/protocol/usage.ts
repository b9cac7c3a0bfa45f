import { add, commonDimension, compareRanges, makeRange, type Quantity, type Range } from '@curette/shared';
import { neverUsed } from '../../problems/never_used.ts';
import { overUsed } from '../../problems/over_used.ts';
import { problemAt, type Report } from '../../problems/problem.ts';
import { repeatedStep } from '../../problems/repeated_step.ts';
import { placeOf } from '../model.ts';
import type { Module } from '../names/module.ts';
import { amountInUse } from '../rules/amount.ts';
import { type Chunk, perChunk } from './chunks.ts';
import { type Flow, forEachFlow, innerLists, type StepFlow, siteOf } from './flow.ts';
import type { Thing, Things } from './things.ts';

/** How the things that a protocol lists are used over all its visits. */
export interface Usage {
  readonly used: ReadonlySet<string>;
  /** what of each thing is used up, least and most over all paths */
  readonly amounts: ReadonlyMap<Thing, { readonly total: Quantity; readonly steps: readonly StepFlow[] }>;
}

/** Adds up what a stretch of events uses. */
export const usageOf = perChunk(({ items }): Usage => {
  const used = new Set<string>();
  forEachFlow(items, (flow) => {
    if (flow.type === 'step' || flow.type === 'call') for (const thing of flow.step.named) used.add(thing.name);
    const awaited = flow.type === 'wait' ? (flow.until ?? flow.passing) : undefined;
    if (awaited) used.add(awaited.thing.name);
  });
  const steps = new Map<Thing, StepFlow[]>();
  forEachFlow(items, (flow) => {
    if (flow.type !== 'step') return;
    for (const { thing, amount } of flow.plan.uses)
      if (amount) {
        const list = steps.get(thing);
        if (list) list.push(flow);
        else steps.set(thing, [flow]);
      }
  });
  const amounts = new Map<Thing, { total: Quantity; steps: StepFlow[] }>();
  for (const [thing, list] of steps) {
    const total = totalOf(items, thing);
    if (total) amounts.set(thing, { total, steps: list });
  }
  return { used, amounts };
});

/** Things listed but not used, and things of which more is used than listed. */
export function checkUsage(
  module: Module,
  things: Things,
  visits: readonly Usage[],
  meant: ReadonlySet<string>,
  report: Report,
): void {
  for (const thing of things.byName.values()) {
    if (!thing.statement) continue;
    const place = placeOf(module.id, thing.statement, thing.statement.name);
    if (
      (thing.group === 'materials' || thing.group === 'instruments') &&
      !meant.has(thing.name) &&
      !visits.some((usage) => usage.used.has(thing.name))
    )
      report(
        problemAt(neverUsed, place, {
          thing: thing.label,
          group: thing.group,
          file: module.id,
          statement: thing.statement.id,
        }),
      );
    const listed = amountInUse(thing);
    if (!listed || !('range' in listed)) continue;
    let total: Quantity | undefined;
    const steps: StepFlow[] = [];
    for (const usage of visits) {
      const part = usage.amounts.get(thing);
      if (!part) continue;
      steps.push(...part.steps);
      const sum = total ? add(total, part.total) : undefined;
      total = total ? (sum?.ok ? sum.quantity : total) : part.total;
    }
    if (!total || commonDimension(total.dimension, listed.dimension) === undefined) continue;
    const verdict = compareRanges(
      total.range,
      '<=',
      listed.range.lo === listed.range.hi ? listed.range : highest(listed.range),
    );
    if (verdict === 'always') continue;
    report(
      problemAt(overUsed, placeOf(module.id, thing.statement, thing.statement.amount ?? thing.statement.name), {
        thing: thing.label,
        listed,
        total,
        always: verdict === 'never',
        steps: steps.map((step) => siteOf(step)),
      }),
    );
  }
}

/** The same step twice in a row is mostly a line pasted twice. */
export function checkRepeated(
  module: Module,
  chunks: readonly Chunk[],
  text: (flow: Flow) => string,
  report: Report,
): void {
  let last: Flow | undefined;
  const compare = (one: Flow | undefined, two: Flow | undefined) => {
    if (!one || !two || !mayRepeat(one, two) || text(one) !== text(two)) return;
    report(
      problemAt(repeatedStep, placeOf(module.id, two.statement, two.statement.head), {
        verb: two.type === 'step' ? two.verb : '',
        first: siteOf(one),
        file: module.id,
        statement: two.statement.id,
      }),
    );
  };
  for (const chunk of chunks) {
    compare(last, chunk.items[0]);
    for (const [one, two] of pairsOf(chunk)) compare(one, two);
    last = chunk.items.at(-1);
  }
}

const pairsOf = perChunk((chunk) => {
  const pairs: [Flow, Flow][] = [];
  const visit = (items: readonly Flow[]): void =>
    items.forEach((two, at) => {
      const one = items[at - 1];
      if (one && mayRepeat(one, two)) pairs.push([one, two]);
      for (const inner of innerLists(two)) visit(inner);
    });
  visit(chunk.items);
  return pairs;
});

function mayRepeat(one: Flow, two: Flow): boolean {
  return one.type === 'step' && two.type === 'step' && one.verb === two.verb && two.call === undefined;
}

function highest(range: Range): Range {
  return makeRange(range.hi, range.hi, false, false);
}

function totalOf(items: readonly Flow[], thing: Thing): Quantity | undefined {
  let unit: Quantity | undefined;
  const sumList = (list: readonly Flow[]): Range => {
    let lo = 0;
    let hi = 0;
    for (const flow of list) {
      const part = sumOne(flow);
      lo += part.lo;
      hi += part.hi;
    }
    return makeRange(lo, hi, false, false);
  };
  const sumOne = (flow: Flow): Range => {
    switch (flow.type) {
      case 'step': {
        let lo = 0;
        let hi = 0;
        for (const use of flow.plan.uses) {
          if (use.thing !== thing || !use.amount) continue;
          unit ??= use.amount;
          lo += Math.max(0, use.amount.range.lo);
          hi +=
            use.amount.range.hi === Number.POSITIVE_INFINITY ? Math.max(0, use.amount.range.lo) : use.amount.range.hi;
        }
        return makeRange(lo, hi, false, false);
      }
      case 'call':
        return sumList(flow.items);
      case 'decide': {
        if (flow.branches.length === 0) return none;
        const parts = flow.branches.map((branch) => sumList(branch.items));
        return makeRange(
          Math.min(...parts.map((part) => part.lo)),
          Math.max(...parts.map((part) => part.hi)),
          false,
          false,
        );
      }
      case 'together':
        return sumList(flow.lanes.flatMap((lane) => lane.items));
      case 'repeat': {
        const body = sumList(flow.items);
        return makeRange(body.lo, body.hi * (flow.atMost ?? 1), false, false);
      }
      case 'verify':
        return flow.otherwise ? makeRange(0, sumList(flow.otherwise).hi, false, false) : none;
      case 'complication':
        return makeRange(0, sumList(flow.items).hi, false, false);
      case 'pause':
      case 'wait':
      case 'plain':
      case 'stop':
        return none;
      default:
        return flow satisfies never;
    }
  };
  const range = sumList(items);
  return unit && { ...unit, range };
}

const none: Range = makeRange(0, 0, false, false);
