/** The network of a visit, the sums of its clocks, and the work played through step by step: three ways to the same times. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type ClockReading, visitClocks } from '../../../server/src/analysis/protocol/clock-readings.ts';
import type { Flow } from '../../../server/src/analysis/protocol/flow.ts';
import {
  type AskedTime,
  type VisitNetwork,
  visitNetwork,
} from '../../../server/src/analysis/protocol/visit-network.ts';
import { breakingRun } from '../../../server/src/analysis/time/breaking-run.ts';
import { judgeNetwork } from '../../../server/src/analysis/time/controllability.ts';
import { brokenLimits, strategyOf } from '../../../server/src/analysis/time/dispatch.ts';
import { factsOf, readFixture } from '../../support/fixture.ts';
import { play } from './play.ts';

/** Lines of a visit; what begins and ends the clock is put among them. */
type Line =
  | { readonly type: 'work'; readonly lo: number; readonly more: number }
  | { readonly type: 'wait'; readonly lo: number; readonly more: number }
  | { readonly type: 'together'; readonly lanes: readonly (readonly Line[])[] }
  | { readonly type: 'decide'; readonly lo: number; readonly options: readonly (readonly Line[])[] }
  | { readonly type: 'complication' | 'otherwise'; readonly lines: readonly Line[] }
  | { readonly type: 'repeat'; readonly times: number; readonly lines: readonly Line[] };

const few = fc.integer({ min: 0, max: 9 });

const lines = (waits: boolean): fc.Arbitrary<readonly Line[]> =>
  fc.letrec<{ lines: readonly Line[]; line: Line }>((tie) => ({
    lines: fc.array(tie('line'), { minLength: 1, maxLength: 4 }),
    line: fc.oneof(
      { maxDepth: 2, depthIdentifier: 'lines' },
      fc.record({ type: fc.constant('work' as const), lo: few, more: few }),
      ...(waits ? [fc.record({ type: fc.constant('wait' as const), lo: few, more: few })] : []),
      fc.record({ type: fc.constant('together' as const), lanes: fc.tuple(tie('lines'), tie('lines')) }),
      fc.record({ type: fc.constant('decide' as const), lo: few, options: fc.tuple(tie('lines'), tie('lines')) }),
      fc.record({ type: fc.constantFrom('complication' as const, 'otherwise' as const), lines: tie('lines') }),
      fc.record({ type: fc.constant('repeat' as const), times: fc.integer({ min: 1, max: 2 }), lines: tie('lines') }),
    ),
  })).lines;

/** A protocol in which `g` is wetted after some lines, and packed after the rest. */
function protocol(before: readonly Line[], after: readonly Line[], soak: string, lane: boolean): string {
  let findings = 0;
  const write = (list: readonly Line[]): string => list.map(one).join('\n');
  const one = (line: Line): string => {
    switch (line.type) {
      case 'work':
        return `work site takes ${line.lo}..${line.lo + line.more} min`;
      case 'wait':
        return `wait ${line.lo}..${line.lo + line.more} min`;
      case 'together':
        return `together {\n${line.lanes.map((items, number) => `lane l${number} {\n${write(items)}\n}`).join('\n')}\n}`;
      case 'decide': {
        const name = `f${findings++}`;
        return `decide ${name} "Look" takes ${line.lo}..${line.lo + 1} min {\n${line.options.map((items, number) => `option v${number} {\n${write(items)}\n}`).join('\n')}\n}`;
      }
      case 'complication':
        return `complication "It may be" {\n${write(line.lines)}\n}`;
      case 'otherwise':
        return `verify "Well" otherwise {\n${write(line.lines)}\n}`;
      case 'repeat':
        return `repeat at most ${line.times} times {\n${write(line.lines)}\n}`;
      default:
        return line satisfies never;
    }
  };
  const begin = lane
    ? `together {\nlane a {\n${write(before)}\nwet g\n}\nlane b {\n${write(before)}\n}\n}`
    : `${write(before)}\nwet g`;
  const body = `${begin}\n${write(after)}\npack g`;
  const declared = Array.from({ length: findings }, (_, number) => `finding f${number} "F" { v0, v1 }\n`).join('');
  return `${declared}kind graft "graft" is material {
  soak : time range
  states dry -> wetted -> packed
}
action wet (graft g) {
  makes g wetted
  takes 1..2 min
}
action pack (graft g) {
  needs g wetted for g.soak
  makes g packed
  takes 5 min
}
action work (place p)
protocol p "P" {
  given { site : place }
  materials { g : graft { soak ${soak} } }
  visit v "V" {
${body}
  }
}
`;
}

interface Visit {
  readonly items: readonly Flow[];
  readonly readings: readonly ClockReading[];
}

function visitOf(text: string): Visit {
  const [facts] = factsOf(readFixture(text))('main.curette')?.protocols ?? [];
  const [visit] = facts?.visits ?? [];
  if (!facts || !visit) throw new Error(`no visit in\n${text}`);
  return { items: visit.items, readings: [...visitClocks(facts.course(), visit).readings.values()] };
}

const askedOf = ({ since, flow, when }: ClockReading, least: number, most: number): AskedTime => ({
  since,
  until: flow.id,
  least,
  most,
  when,
});

const MIN = 60;

test('what a clock reads at least and at most is what the work played through gives', () => {
  let exact = 0;
  let clocks = 0;
  fc.assert(
    fc.property(
      lines(false),
      lines(false),
      fc.boolean(),
      fc.infiniteStream(fc.boolean()),
      (before, after, lane, tosses) => {
        const { items, readings } = visitOf(protocol(before, after, '1..2 min', lane));
        const [reading] = readings;
        const { elapsed } = reading ?? {};
        if (!reading || !elapsed) throw new Error('the clock was not read');
        const toss = () => tosses.next().value === true;
        const turns = {
          length: (lo: number, hi: number) => (toss() ? lo : hi),
          choice: (of: number) => (toss() ? of - 1 : 0),
        };
        let shortest = Number.POSITIVE_INFINITY;
        let longest = 0;
        for (let run = 0; run < 60; run++) {
          const { begun, ended } = play(items, turns, 0);
          const time = (begun.get(reading.flow.id) ?? 0) - (ended.get(reading.since ?? '') ?? 0);
          shortest = Math.min(shortest, time);
          longest = Math.max(longest, time);
        }
        expect(shortest).toBeGreaterThanOrEqual(elapsed.lo - 1e-6);
        expect(longest).toBeLessThanOrEqual(elapsed.hi + 1e-6);
        // The two ends of the range, and a minute inside them: the network says the same of all.
        for (const [least, most, holds] of [
          [elapsed.lo, elapsed.hi, true],
          [elapsed.lo + MIN / 2, Number.POSITIVE_INFINITY, false],
          [0, elapsed.hi - MIN / 2, false],
        ] as const) {
          const built = visitNetwork(items, [askedOf(reading, least, most)]);
          if (!built) continue;
          clocks++;
          const answer = judgeNetwork(built.network).answer === 'holds';
          // Sums may be too careful where a state begins deep inside a lane; they are never too bold.
          if (holds) expect(answer).toBe(true);
          if (answer === holds) exact++;
        }
      },
    ),
    { numRuns: 200 },
  );
  expect(exact / clocks).toBeGreaterThan(0.98);
});

test('a limit that holds is kept in every run, and one that does not is broken by the run that is shown', () => {
  let kept = 0;
  let broken = 0;
  fc.assert(
    fc.property(
      lines(true),
      lines(true),
      fc.integer({ min: 1, max: 15 }),
      fc.integer({ min: 0, max: 90 }),
      fc.infiniteStream(fc.double({ min: 0, max: 1, noNaN: true })),
      (before, after, least, more, parts) => {
        const { items, readings } = visitOf(protocol(before, after, `${least}..${least + more} min`, false));
        const [reading] = readings;
        const built = reading && visitNetwork(items, [askedOf(reading, least * MIN, (least + more) * MIN)]);
        if (!built) return;
        const { network } = built;
        const verdict = judgeNetwork(network);
        if (verdict.answer === 'holds') {
          kept++;
          const playNetwork = strategyOf(network);
          for (let run = 0; run < 25; run++) {
            const share = () => (run % 5 === 0 ? 0 : run % 5 === 1 ? 1 : (parts.next().value ?? 0));
            const durations = network.links.map(({ lo, hi }) => lo + (hi - lo) * share());
            expect(
              brokenLimits(
                network,
                playNetwork((link) => durations[link] ?? 0),
              ),
            ).toEqual([]);
          }
          // What is told of the reading is the same.
          expect([reading.soon, reading.late]).toEqual(['holds', 'holds']);
        } else {
          broken++;
          if (reading.choice?.type === 'not kept') {
            const seconds = reading.choice.run?.seconds ?? Number.NaN;
            expect(seconds < least * MIN || seconds > (least + more) * MIN).toBe(true);
          } else {
            const run = breakingRun(network, verdict);
            expect(run?.broken.some((limit) => built.limits[limit]?.type === 'asked')).toBe(true);
            expect(run && brokenLimits(network, run.times)).toEqual(run?.broken);
          }
        }
      },
    ),
    { numRuns: 400 },
  );
  expect(kept).toBeGreaterThan(50);
  expect(broken).toBeGreaterThan(60);
});

test('a bound moved past what is left of it turns the answer, and within it does not', () => {
  const text = (soak: string) =>
    protocol(
      [{ type: 'work', lo: 1, more: 1 }],
      [
        { type: 'work', lo: 10, more: 12 },
        { type: 'work', lo: 3, more: 5 },
      ],
      soak,
      false,
    );
  const answers = (soak: string) => {
    const [reading] = visitOf(text(soak)).readings;
    return reading && [reading.soon, reading.late];
  };
  // Between wetting and packing lie 13 to 30 min.
  expect(answers('13..30 min')).toEqual(['holds', 'holds']);
  expect(answers('12..31 min')).toEqual(['holds', 'holds']);
  expect(answers('14..30 min')).toEqual(['can break', 'holds']);
  expect(answers('13..29 min')).toEqual(['holds', 'can break']);
  expect(answers('31..40 min')).toEqual(['always breaks', 'holds']);
  expect(answers('1..12 min')).toEqual(['holds', 'always breaks']);
});

// The beginning, the end of wetting, the beginning of packing, and its end.
test('only what a time hangs on has moments of its own', () => {
  const sizes = (built: VisitNetwork | undefined) => built && [built.network.points, built.network.links.length];
  const { items, readings } = visitOf(
    protocol(
      Array.from({ length: 30 }, () => ({ type: 'work' as const, lo: 1, more: 1 })),
      Array.from({ length: 30 }, () => ({ type: 'decide' as const, lo: 1, options: [[], []] })),
      '0..60 min',
      false,
    ),
  );
  const [reading] = readings;
  if (!reading) throw new Error('the clock was not read');
  expect(sizes(visitNetwork(items, [askedOf(reading, 0, 7200)]))).toEqual([4, 3]);
});
