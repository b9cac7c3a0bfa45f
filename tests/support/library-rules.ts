/** Rules of the shipped library, each tried on a protocol that breaks it and one that keeps it. */
import { libraryFiles } from '@curette/shared';
import { describe, expect, test } from 'vitest';
import { problemsOf, readFixture } from './fixture.ts';

/** Texts that break a rule and nothing else, one for each of its forms, and one that keeps it and everything else. */
export type Tried = readonly [breaks: string | readonly string[], keeps: string];

/** Asserts that the table has every rule of the files and no other, and that each can be broken and kept. */
export function triesRules(files: readonly string[], table: Readonly<Record<string, Tried>>): void {
  test('each rule of these files is tried', () => {
    const rules = libraryFiles
      .filter(({ path }) => files.includes(path.slice('std/'.length, -'.curette'.length)))
      .flatMap(({ text }) => [...text.matchAll(/^rule (\w+)/gm)].map(([, name]) => name));
    expect(Object.keys(table).sort()).toEqual(rules.sort());
  });

  describe.each(Object.entries(table))('%s', (rule, [breaks, keeps]) => {
    test.each([breaks].flat())('is broken, and nothing else is the matter', (text) => {
      const found = problemsIn(text);
      expect(new Set(found.map(({ problem }) => problem.rule ?? problem.code))).toEqual(new Set([rule]));
      expect(found.map(({ problem }) => problem.message).join('\n')).not.toContain('cannot be told');
    });
    test('is kept, and nothing is the matter', () => {
      expect(problemsIn(keeps).map(({ problem }) => `${problem.code}: ${problem.message}`)).toEqual([]);
    });
  });
}

/** What is told of a text, but for its heading and for what it lists and does not use. */
function problemsIn(text: string) {
  return problemsOf(readFixture(`// quiet: missing_head, never_used, not_judged\n${text}\n`));
}
