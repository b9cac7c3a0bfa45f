import { resolve } from 'node:path';
import { expect, test } from 'vitest';
import { filesOf, randomSession } from '../support/session.ts';
import { bundles } from './server.ts';

const asked = process.env.CURETTE_SEED;
const seed = asked === 'random' ? Date.now() : Number(asked ?? 2026);

/**
 * MiB that may be held at the end beyond the start, all documents closed in both: code is compiled as it is first used, and what files
 * declare is remembered while they are there. A document kept at each of some hundred edits would be far more.
 */
const GROWTH = 24;

test.each(['told', 'asked'] as const)(
  'after a session at random, problems %s, everything is as after a fresh start',
  async (problems) => {
    const folder = resolve(import.meta.dirname, '../../examples');
    const memory = resolve(import.meta.dirname, '../support/memory.cjs');
    const program = ['--expose-gc', `--require=${memory}`, (await bundles).server];
    const files = filesOf(folder);
    const outcome = await randomSession({ program, files, steps: 400, seed, problems, compareEvery: 400 });
    expect(outcome.differences, `seed ${seed}`).toEqual([]);
    expect(outcome.failures, `seed ${seed}`).toEqual([]);
    expect(outcome.said, `seed ${seed}`).toBe('');
    expect(outcome.exitCode).toBe(0);
    expect((outcome.memory.at(-1) ?? Number.NaN) - (outcome.memory[0] ?? Number.NaN)).toBeLessThan(GROWTH);
  },
);
