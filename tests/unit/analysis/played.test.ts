/** Whatever holds, holds when it is played: the demo workspace and every example of the problem pages, by chance and at the extremes. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { type FileFacts, problemKinds } from '@curette/server';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type ClockReading, visitClocks } from '../../../server/src/analysis/protocol/clock-readings.ts';
import type { Flow } from '../../../server/src/analysis/protocol/flow.ts';
import { factsOf, readFixture } from '../../support/fixture.ts';
import { play, type Turns } from './play.ts';

const examples = join(import.meta.dirname, '../../../examples');

function demo(): readonly FileFacts[] {
  const files = readdirSync(examples, { recursive: true, encoding: 'utf8' }).filter((name) =>
    name.endsWith('.curette'),
  );
  const fixture = {
    files: files.map((name) => ({
      id: relative('.', name),
      text: readFileSync(join(examples, name), 'utf8'),
      trouble: undefined,
      marks: [],
      failing: [],
    })),
    quiet: new Set<string>(),
    cursor: undefined,
  };
  const facts = factsOf(fixture);
  return files.flatMap((id) => facts(id) ?? []);
}

function pages(): readonly FileFacts[] {
  return Object.values(problemKinds)
    .flatMap(({ triggers, silent }) => [triggers, silent])
    .flatMap((text) => {
      const fixture = readFixture(text);
      const facts = factsOf(fixture);
      return fixture.files.flatMap(({ id }) => facts(id) ?? []);
    });
}

interface Played {
  readonly visits: number;
  readonly clocks: number;
  readonly runs: number;
}

/** Plays every visit and looks at each clock in it that is told to hold. */
function playAll(all: readonly FileFacts[], runs: number): Played {
  const count = { visits: 0, clocks: 0, runs: 0 };
  const draw = fc.sample(fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true }), 5000);
  let drawn = 0;
  const random = () => draw[drawn++ % draw.length] ?? 0;
  for (const { protocols } of all)
    for (const facts of protocols)
      for (const visit of facts.visits) {
        const readings = [...visitClocks(facts.course(), visit).readings.values()].filter(
          (reading) => reading.elapsed && !reading.elapsed.legs && reading.choice === undefined,
        );
        if (readings.length === 0) continue;
        count.visits++;
        count.clocks += readings.length;
        for (let run = 0; run < runs; run++) {
          count.runs++;
          const end = run % 4;
          const turns: Turns = {
            length: (lo, hi) =>
              end === 0 ? lo : end === 1 ? hi : end === 2 ? (random() < 0.5 ? lo : hi) : lo + (hi - lo) * random(),
            choice: (of) => Math.floor(random() * of),
          };
          play(visit.items, turns, 3600, (flow, { begun, ended }) => {
            for (const reading of readings) if (reading.flow === flow) look(reading, begun, ended, flow);
          });
        }
      }
  return count;
}

function look(
  reading: ClockReading,
  begun: ReadonlyMap<unknown, number>,
  ended: ReadonlyMap<unknown, number>,
  flow: Flow,
) {
  const { since, least, most, soon, late, elapsed } = reading;
  const from = since === undefined ? 0 : ended.get(since);
  const now = begun.get(flow.id);
  // It began elsewhere on this path.
  if (from === undefined || now === undefined || !elapsed) return;
  const time = now - from;
  const about = `${flow.statement.type} ${String(flow.id)}: ${time} s`;
  if (soon === 'holds') expect(time, about).toBeGreaterThanOrEqual(least - 1e-6);
  if (late === 'holds') expect(time, about).toBeLessThanOrEqual(most + 1e-6);
  if (soon === 'always breaks') expect(time, about).toBeLessThan(least);
  if (late === 'always breaks') expect(time, about).toBeGreaterThan(most);
}

test('the demo workspace', () => {
  const { visits, clocks, runs } = playAll(demo(), 1500);
  expect(visits).toBeGreaterThanOrEqual(3);
  expect(clocks).toBeGreaterThanOrEqual(15);
  expect(runs).toBeGreaterThan(5000);
});

test('the examples of the pages', () => {
  const { visits, runs } = playAll(pages(), 500);
  expect(visits).toBeGreaterThanOrEqual(5);
  expect(runs).toBeGreaterThan(1500);
});
