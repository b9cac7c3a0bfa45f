/** Schedules beside every run of small visits: all options, all rounds, each length as short and as long as it may be. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { SAME_TIME } from '../../../server/src/analysis/time/network.ts';
import { scheduleIn } from '../../support/schedules.ts';

type Piece =
  | { readonly type: 'step' | 'wait'; readonly id: number; readonly lo: number; readonly hi: number }
  /** until what was wetted at the beginning has soaked so long */
  | { readonly type: 'soak'; readonly minutes: number }
  | { readonly type: 'lanes'; readonly lists: readonly (readonly Piece[])[] }
  | {
      readonly type: 'decide';
      readonly id: number;
      readonly lists: readonly (readonly Piece[])[];
      readonly stop: boolean;
    }
  | { readonly type: 'repeat'; readonly id: number; readonly times: number; readonly list: readonly Piece[] }
  | { readonly type: 'mishap'; readonly id: number; readonly list: readonly Piece[] };

/** Longest time that a limit of the visits allows, minutes: longer than any of them takes. */
const LIMIT = 300;

const MOST_LENGTHS = 6;

const length = fc
  .tuple(fc.integer({ min: 0, max: 9 }), fc.integer({ min: 0, max: 9 }))
  .map(([a, b]) => ({ lo: Math.min(a, b), hi: Math.max(a, b) + 1 }));
const work = fc.oneof(
  { weight: 5, arbitrary: length.map(({ lo, hi }) => ({ type: 'step' as const, id: 0, lo, hi })) },
  { weight: 1, arbitrary: length.map(({ lo, hi }) => ({ type: 'wait' as const, id: 0, lo, hi })) },
  { weight: 1, arbitrary: fc.integer({ min: 1, max: 25 }).map((minutes) => ({ type: 'soak' as const, minutes })) },
);
const few = (piece: fc.Arbitrary<Piece>) => fc.array(piece, { minLength: 1, maxLength: 2 });
const rounds = fc.record({
  type: fc.constant('repeat' as const),
  id: fc.constant(0),
  times: fc.integer({ min: 1, max: 3 }),
  list: fc.array(
    length.map(({ lo, hi }) => ({ type: 'step' as const, id: 0, lo, hi })),
    { minLength: 1, maxLength: 2 },
  ),
});
const nested = (inner: fc.Arbitrary<Piece>, mayStop: boolean): fc.Arbitrary<Piece> =>
  fc.oneof(
    { weight: 4, arbitrary: inner },
    {
      weight: 3,
      arbitrary: fc.record({ type: fc.constant('lanes' as const), lists: fc.tuple(few(inner), few(inner)) }),
    },
    {
      weight: 2,
      arbitrary: fc.record({
        type: fc.constant('decide' as const),
        id: fc.constant(0),
        lists: fc.tuple(few(inner), fc.array(inner, { maxLength: 1 })),
        stop: mayStop ? fc.boolean() : fc.constant(false),
      }),
    },
    { weight: 1, arbitrary: fc.record({ type: fc.constant('mishap' as const), id: fc.constant(0), list: few(inner) }) },
    { weight: 1, arbitrary: rounds },
  );
const visits = fc
  .array(nested(nested(work, false), true), { minLength: 1, maxLength: 3 })
  .map(numbered)
  .filter((pieces) => lengthsIn(pieces).length <= MOST_LENGTHS && worlds(pieces).length <= 24);

test('windows and chair time are the earliest and latest of all runs', () => {
  fc.assert(
    fc.property(visits, (pieces) => {
      const { chair, entries } = scheduleIn(written(pieces));
      const runs = worlds(pieces).flatMap((world) => corners(pieces).map((lengths) => played(pieces, world, lengths)));
      const through = runs.filter((run) => !run.stopped).map((run) => run.now);
      if (through.length > 0)
        expect([chair.lo, chair.hi]).toEqual([Math.min(...through) * 60, Math.max(...through) * 60]);
      for (const { id, at } of stepsOf(entries)) {
        const starts = runs.flatMap((run) => run.starts.get(id) ?? []);
        expect({ id, lo: at.start.lo / 60, hi: at.start.hi / 60 }).toEqual({
          id,
          lo: Math.min(...starts),
          hi: Math.max(...starts),
        });
      }
    }),
    { numRuns: 150 },
  );
});

test('slack is what a step can take longer in the longest run that it is part of, and no more', () => {
  fc.assert(
    fc.property(visits, (pieces) => {
      for (const { id, at } of stepsOf(scheduleIn(written(pieces)).entries)) {
        const longest = (more: number) => {
          const runs = worlds(pieces)
            .map((world) => played(pieces, world, longestOf(pieces), { id, more }))
            .filter((run) => run.starts.has(id));
          const through = runs.filter((run) => !run.stopped);
          return Math.max(...(through.length > 0 ? through : runs).map((run) => run.now));
        };
        const slack = at.slack / 60;
        expect(at.critical).toBe(slack < SAME_TIME);
        expect({ id, slack, longest: longest(slack) }).toEqual({ id, slack, longest: longest(0) });
        expect(longest(slack + 1)).toBeGreaterThan(longest(0));
      }
    }),
    { numRuns: 150 },
  );
});

test('a step that begins later by what is spare breaks no limit; in plain work, one minute more does', () => {
  fc.assert(
    fc.property(visits, (pieces) => {
      // What else makes the longest time between vague is counted for more than it can come to.
      const plain =
        worlds(pieces).length === 1 && every(pieces).every(({ type }) => type !== 'wait' && type !== 'soak');
      for (const { id, at } of stepsOf(scheduleIn(written(pieces)).entries)) {
        if (at.spare === undefined) continue;
        const oldest = (more: number) =>
          Math.max(
            ...worlds(pieces)
              .map((world) => played(pieces, world, longestOf(pieces), { id, more }))
              .filter((run) => run.starts.has(id) && !run.stopped)
              .map((run) => run.now - PACKING - WETTING),
          );
        const spare = at.spare / 60;
        expect(oldest(spare)).toBeLessThanOrEqual(LIMIT);
        if (plain) expect(oldest(spare + 1)).toBeGreaterThan(LIMIT);
      }
    }),
    { numRuns: 150 },
  );
});

/** Minutes that the first step and the last take. */
const WETTING = 1;
const PACKING = 5;

/** Each with a number of its own. */
function numbered(pieces: readonly Piece[]): readonly Piece[] {
  let next = 0;
  const list = (items: readonly Piece[]): Piece[] =>
    items.map((piece) => {
      const id = next++;
      if (piece.type === 'lanes') return { ...piece, lists: piece.lists.map(list) };
      if (piece.type === 'decide') return { ...piece, id, lists: piece.lists.map(list) };
      if (piece.type === 'repeat' || piece.type === 'mishap') return { ...piece, id, list: list(piece.list) };
      return piece.type === 'soak' ? piece : { ...piece, id };
    });
  return list(pieces);
}

function inside(piece: Piece): readonly (readonly Piece[])[] {
  if (piece.type === 'lanes' || piece.type === 'decide') return piece.lists;
  return piece.type === 'repeat' || piece.type === 'mishap' ? [piece.list] : [];
}

function every(pieces: readonly Piece[]): readonly Piece[] {
  return pieces.flatMap((piece) => [piece, ...inside(piece).flatMap(every)]);
}

type Timed = Extract<Piece, { readonly lo: number }>;

function lengthsIn(pieces: readonly Piece[]): readonly Timed[] {
  return every(pieces).filter((piece) => piece.type === 'step' || piece.type === 'wait') as readonly Timed[];
}

/** Steps of the schedule with the numbers of their pieces; the first and the last of the visit have none. */
function stepsOf(entries: ReturnType<typeof scheduleIn>['entries']) {
  return entries.flatMap((at) => {
    const id = numberIn(at.flow);
    return id === undefined ? [] : [{ id, at }];
  });
}

/** A step says the number of its piece as the text it is done with. */
function numberIn(flow: ReturnType<typeof scheduleIn>['entries'][number]['flow']): number | undefined {
  if (flow.type !== 'step') return undefined;
  for (const filling of flow.step.fillings.values()) if (filling.type === 'text') return Number(filling.text);
  return undefined;
}

type World = ReadonlyMap<number, number>;

/** All combinations of options, rounds and mishaps. */
function worlds(pieces: readonly Piece[]): readonly World[] {
  let all: World[] = [new Map()];
  for (const piece of every(pieces)) {
    const ways = piece.type === 'repeat' ? piece.times : piece.type === 'decide' || piece.type === 'mishap' ? 2 : 1;
    if (ways > 1 && 'id' in piece)
      all = all.flatMap((world) => Array.from({ length: ways }, (_, way) => new Map([...world, [piece.id, way]])));
  }
  return all;
}

type Lengths = ReadonlyMap<number, number>;

function corners(pieces: readonly Piece[]): readonly Lengths[] {
  let all: Lengths[] = [new Map()];
  for (const { id, lo, hi } of lengthsIn(pieces))
    all = all.flatMap((lengths) => [new Map([...lengths, [id, lo]]), new Map([...lengths, [id, hi]])]);
  return all;
}

function longestOf(pieces: readonly Piece[]): Lengths {
  return new Map(lengthsIn(pieces).map(({ id, hi }) => [id, hi]));
}

interface Run {
  now: number;
  stopped: boolean;
  readonly starts: Map<number, number[]>;
}

/** One run, in minutes. `late` takes so much longer, the first time it is done. */
function played(
  pieces: readonly Piece[],
  world: World,
  lengths: Lengths,
  late?: { readonly id: number; readonly more: number },
): Run {
  const run: Run = { now: WETTING, stopped: false, starts: new Map() };
  const list = (items: readonly Piece[]): void => {
    for (const piece of items) if (!run.stopped) one(piece);
  };
  const one = (piece: Piece): void => {
    switch (piece.type) {
      case 'step':
      case 'wait': {
        const before = run.starts.get(piece.id) ?? [];
        run.starts.set(piece.id, [...before, run.now]);
        run.now += (lengths.get(piece.id) ?? 0) + (late?.id === piece.id && before.length === 0 ? late.more : 0);
        return;
      }
      case 'soak':
        run.now = Math.max(run.now, WETTING + piece.minutes);
        return;
      case 'lanes': {
        const start = run.now;
        const ends = piece.lists.map((lane) => {
          run.now = start;
          list(lane);
          return run.now;
        });
        run.now = Math.max(...ends);
        return;
      }
      case 'decide': {
        const way = world.get(piece.id) ?? 0;
        list(piece.lists[way] ?? []);
        run.stopped ||= piece.stop && way === 1;
        return;
      }
      case 'repeat':
        for (let round = 0; round <= (world.get(piece.id) ?? 0); round++) list(piece.list);
        return;
      case 'mishap':
        if (world.get(piece.id) === 1) list(piece.list);
        return;
      default:
        piece satisfies never;
    }
  };
  list(pieces);
  if (!run.stopped) run.now += PACKING;
  return run;
}

/** The visit in the language. */
function written(pieces: readonly Piece[]): string {
  const findings = every(pieces).flatMap((piece) => (piece.type === 'decide' ? [piece.id] : []));
  const list = (items: readonly Piece[]): string => items.map(one).join('\n');
  const one = (piece: Piece): string => {
    switch (piece.type) {
      case 'step':
        return `act "${piece.id}" takes ${piece.lo}..${piece.hi} min`;
      case 'wait':
        return `wait ${piece.lo}..${piece.hi} min`;
      case 'soak':
        return `wait until g is wetted for ${piece.minutes} min`;
      case 'lanes':
        return `together {\n${piece.lists.map((lane, i) => `lane l${i} "L${i}" {\n${list(lane)}\n}`).join('\n')}\n}`;
      case 'decide': {
        const [first = [], second = []] = piece.lists;
        const stop = piece.stop ? '\nstop "Enough"' : '';
        return `decide f${piece.id} {\noption one {\n${list(first)}\n}\noption two {\n${list(second)}${stop}\n}\n}`;
      }
      case 'repeat':
        return `repeat until "done" at most ${piece.times} times {\n${list(piece.list)}\n}`;
      case 'mishap':
        return `complication "C${piece.id}" {\n${list(piece.list)}\n}`;
      default:
        return piece satisfies never;
    }
  };
  return `
${findings.map((id) => `finding f${id} "F${id}" { one, two }`).join('\n')}
kind graft "graft" is material {
  states dry -> wetted -> packed
}
action wet (graft g) {
  makes g wetted
  takes ${WETTING} min
}
action act (text t)
action pack (graft g) {
  needs g wetted for 0..${LIMIT} min
  makes g packed
  takes ${PACKING} min
}
protocol p "P" {
  materials { g : graft }
  visit v "V" {
    wet g
${list(pieces)}
    pack g
  }
}
`;
}
