import { add, formatQuantity, type Quantity, type Tray, type TrayThing, type TrayVisit } from '@curette/shared';
import type { FileFacts } from '../analysis/analysis.ts';
import type { CaseFacts } from '../analysis/cases/case.ts';
import type { Chunk } from '../analysis/protocol/chunks.ts';
import type { Flow } from '../analysis/protocol/flow.ts';
import { labelOf } from '../analysis/protocol/flow-words.ts';
import type { ProtocolFacts, VisitFacts } from '../analysis/protocol/protocol.ts';
import type { Thing } from '../analysis/protocol/things.ts';
import { usageOf } from '../analysis/protocol/usage.ts';
import { amountWords, calendarOf, identity, listedName } from './checklist.ts';
import { sayStep } from './checklist-steps.ts';
import { datesOf } from './dates.ts';
import { type Lines, linesOf } from './lines.ts';
import { sheetHeadOf } from './sheet-head.ts';
import { plain, sentence } from './text.ts';
import { datesWords } from './timeline-words.ts';

/**
 * What has to be laid out for each visit: materials and instruments in the order in which steps need them, what is used up of them, and
 * what is needed on some paths only.
 * @param file the file that was asked about: it declares the protocol, or the case
 * @param factsOf gives the facts of the files it uses
 * @param ofCase the case whose facts are in the protocol, declared in `file`
 */
export function trayOf(
  file: FileFacts,
  protocol: ProtocolFacts,
  factsOf: (id: string) => FileFacts | undefined,
  ofCase?: CaseFacts,
): Tray {
  const lines = linesOf(file, protocol, factsOf);
  const calendar = calendarOf(ofCase);
  const dates = calendar && datesOf(protocol, calendar);
  return {
    ...sheetHeadOf(file, protocol, factsOf, ofCase).sheet,
    visits: protocol.visits.map(
      (visit): TrayVisit => ({
        line: lines(protocol.context.module.id, visit.statement),
        name: visit.statement.name?.text ?? '',
        label: visit.statement.label?.value ?? sentence(plain(visit.statement.name?.text ?? 'visit')),
        dates: datesWords({ dates: dates?.get(visit.statement.id) ?? null }) ?? null,
        materials: thingsOf(protocol, visit, lines, 'materials'),
        instruments: thingsOf(protocol, visit, lines, 'instruments'),
      }),
    ),
  };
}

function thingsOf(
  { context }: ProtocolFacts,
  visit: VisitFacts,
  lines: Lines,
  group: 'materials' | 'instruments',
): TrayThing[] {
  const { module } = context;
  return [...needsOf(visit.items)].flatMap(([thing, { first, only }]): TrayThing[] => {
    if (thing.group !== group) return [];
    const used = usedUp(visit.chunks, thing);
    return [
      {
        line: thing.statement ? lines(module.id, thing.statement) : null,
        name: listedName(thing),
        is: thing.statement?.kind ? identity(thing) : null,
        listed: amountWords(module, thing),
        used: used && used.range.hi > 0 ? formatQuantity(used) : null,
        first: { line: lines(first.file, first.statement), text: sentence(saying(context, first)) },
        only: [...only],
      },
    ];
  });
}

function saying({ module }: ProtocolFacts['context'], flow: Flow): string {
  return flow.type === 'step' || flow.type === 'call' ? sayStep(module, flow) : labelOf(flow);
}

/** The first event that needs a thing, and in what circumstances some event does; on every path: none. */
interface Need {
  readonly first: Flow;
  readonly only: readonly string[];
}

type Needs = ReadonlyMap<Thing, Need>;

/** What a list of events needs, in the order in which it does. */
function needsOf(items: readonly Flow[]): Needs {
  const needs = new Map<Thing, Need>();
  for (const flow of items)
    for (const [thing, { first, only }] of needsOfOne(flow)) {
      const known = needs.get(thing);
      const always = only.length === 0 || known?.only.length === 0;
      needs.set(thing, { first: known?.first ?? first, only: always ? [] : unique([...(known?.only ?? []), ...only]) });
    }
  return needs;
}

function needsOfOne(flow: Flow): Needs {
  switch (flow.type) {
    case 'step':
      return new Map(flow.step.named.map((thing) => [thing, { first: flow, only: [] }]));
    case 'call': {
      // The steps of a routine say what they need where it is called.
      const named = new Set(flow.step.named);
      const inside = [...needsOf(flow.items)].map(([thing, need]): [Thing, Need] => [
        thing,
        named.has(thing) ? { ...need, first: flow } : need,
      ]);
      return new Map(inside);
    }
    case 'repeat':
      return needsOf(flow.items);
    case 'wait': {
      const awaited = flow.until ?? flow.passing;
      return awaited ? new Map([[awaited.thing, { first: flow, only: [] }]]) : NOTHING;
    }
    case 'together':
      return needsOf(flow.lanes.flatMap(({ items }) => items));
    case 'decide':
      return needsOfSome(
        flow.branches.map(({ assumption, items }) => ({ when: assumption.say(assumption.values), items })),
        flow.branches.length,
      );
    case 'complication':
      return needsOfSome([{ when: `“${flow.label}” happens`, items: flow.items }]);
    case 'verify':
      return flow.otherwise ? needsOfSome([{ when: `not so: ${flow.label}`, items: flow.otherwise }]) : NOTHING;
    case 'pause':
    case 'plain':
    case 'stop':
      return NOTHING;
    default:
      return flow satisfies never;
  }
}

const NOTHING: Needs = new Map();

/**
 * What is needed where one of several lists is gone through.
 * @param always of how many lists a thing has to be needed to be needed in any event; not given: it never is
 */
function needsOfSome(
  lists: readonly { readonly when: string; readonly items: readonly Flow[] }[],
  always?: number,
): Needs {
  const needs = new Map<Thing, Need & { readonly certain: number }>();
  for (const { when, items } of lists)
    for (const [thing, { first, only }] of needsOf(items)) {
      const known = needs.get(thing);
      const here = only.length === 0 ? [when] : only.map((inner) => `${when}, ${inner}`);
      needs.set(thing, {
        first: known?.first ?? first,
        only: unique([...(known?.only ?? []), ...here]),
        certain: (known?.certain ?? 0) + (only.length === 0 ? 1 : 0),
      });
    }
  return new Map(
    [...needs].map(([thing, { first, only, certain }]) => [thing, { first, only: certain === always ? [] : only }]),
  );
}

function unique(texts: readonly string[]): readonly string[] {
  return [...new Set(texts)];
}

function usedUp(chunks: readonly Chunk[], thing: Thing): Quantity | undefined {
  let sum: Quantity | undefined;
  for (const chunk of chunks) {
    const part = usageOf(chunk).amounts.get(thing)?.total;
    if (!part) continue;
    const both = sum ? add(sum, part) : undefined;
    sum = sum === undefined ? part : both?.ok ? both.quantity : sum;
  }
  return sum;
}
