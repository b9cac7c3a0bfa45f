/**
 * Every kind of problem: its page is there, its two examples do what they say, and what a surgeon reads is kept beside this file, one small
 * snapshot a kind, so that a change of words is seen in review.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { allPages, problemKinds, problemPage, problemText, unpainted } from '@curette/server';
import { describe, expect, test } from 'vitest';
import { problemIndex } from '../scripts/generate.mjs';
import { check, factsOf, mendsFor, problemsOf, readFixture } from '../support/fixture.ts';

const kinds = Object.entries(problemKinds);

test('there are at least 25 kinds', () => {
  expect(kinds.length).toBeGreaterThanOrEqual(25);
});

test('the index has every file of the folder', () => {
  const { path, text } = problemIndex();
  expect(readFileSync(join(import.meta.dirname, '../..', path), 'utf8')).toBe(text);
});

test('the reference page has every page as it is now', () => {
  expect(readFileSync(join(import.meta.dirname, '../../server/PROBLEMS.md'), 'utf8')).toBe(allPages());
});

test('no snapshot is of a kind that is gone', () => {
  const kept = readdirSync(join(import.meta.dirname, 'snapshots')).map((name) => name.replace(/\.txt$/, ''));
  expect(kept.filter((code) => !(code in problemKinds))).toEqual([]);
});

describe.each(kinds)('%s', (code, kind) => {
  test('has a name of its own, a short title and a page', () => {
    expect(kind.code).toBe(code);
    expect(kind.title.split(' ').length).toBeLessThanOrEqual(6);
    expect(kind.page.length).toBeGreaterThan(100);
    expect(problemPage(code)).toContain(kind.page);
  });

  test('is raised where its example says, and nothing else is', () => {
    check(kind.triggers);
    expect(codesIn(kind.triggers)).toContain(code);
  });

  test('is not raised in the nearest text without it', () => {
    check(kind.silent);
    expect(codesIn(kind.silent)).not.toContain(code);
  });

  test('reads well', async () => {
    await expect(rendered(code, kind.triggers)).toMatchFileSnapshot(`snapshots/${code}.txt`);
  });
});

test('a code that is not there has no page', () => {
  expect(problemPage('no_such_code')).toBeUndefined();
  expect(problemPage('constructor')).toBeUndefined();
});

function codesIn(example: string): readonly string[] {
  return problemsOf(readFixture(example)).map(({ problem }) => problem.code);
}

/** The example's text, and below it each problem of the kind as the terminal shows it. */
function rendered(code: string, example: string): string {
  const fixture = readFixture(example);
  const facts = factsOf(fixture);
  const source = fixture.files.map(({ id, text, trouble }) =>
    fixture.files.length > 1 ? `── ${id}${trouble ? ` (${trouble})` : ''}\n${text}` : text,
  );
  const told = problemsOf(fixture)
    .filter(({ problem }) => problem.code === code)
    .map((shown) => {
      const told = { ...shown.problem, mends: mendsFor(fixture, shown) };
      return problemText(told, (id) => facts(id)?.file, { width: 100, paint: unpainted, name: (id) => id });
    });
  return `${source.join('\n')}\n${told.map((text) => `${'─'.repeat(100)}\n${text}\n`).join('\n')}`;
}
