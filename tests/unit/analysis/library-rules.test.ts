/**
 * Every rule of the shipped library can be broken and can be kept.
 *
 * A rule that nobody can break says nothing, and one that nobody can keep is in everybody's way. So each stands in a table of
 * `tests/library-rules`, by its name, with
 *
 * * one or more small protocols (or entries) in the real library that break it, best one for each of its lines, and
 * * the nearest one that keeps it.
 *
 * **To add a rule**: add its name to the table of its pack, with the two texts; most tables have a function that writes a protocol
 * around the steps that matter. A new pack gets a file of its own there, which exports `Tries` and is listed in `TABLES` below. In a
 * table that is `alone`, a text breaks that rule and nothing else, and keeps everything; try to write it so. This file fails when a
 * rule of the library is in no table or in two, when a table names a rule that is gone, when its first text does not break it, when it
 * is "broken" only because something is not stated, and when its second text does not keep it.
 */
import { libraryFiles } from '@curette/shared';
import { describe, expect, test } from 'vitest';
import { anaesthesia } from '../../library-rules/anaesthesia.ts';
import { extractionWoundSkin } from '../../library-rules/extraction-wound-skin.ts';
import { graftingAndImplants } from '../../library-rules/grafting-and-implants.ts';
import { lostWallAndShaping } from '../../library-rules/lost-wall-and-shaping.ts';
import { perioperative } from '../../library-rules/perioperative.ts';
import { ridgeAndSinus } from '../../library-rules/ridge-and-sinus.ts';
import type { Tries } from '../../library-rules/tried.ts';
import { problemsOf, readFixture } from '../../support/fixture.ts';

const TABLES: readonly Tries[] = [
  perioperative,
  anaesthesia,
  extractionWoundSkin,
  graftingAndImplants,
  lostWallAndShaping,
  ridgeAndSinus,
];

test('each rule of the library is in one table, and every table names rules of the library alone', () => {
  const rules = libraryFiles.flatMap(({ path, text }) =>
    [...text.matchAll(/^rule (\w+)/gm)].map(([, name]) => `${name} in ${path}`),
  );
  const tried = TABLES.flatMap((table) => Object.keys(table.rules));
  expect(rules.length).toBeGreaterThan(100);
  expect(tried.toSorted()).toEqual(rules.map((rule) => rule.replace(/ in .*$/, '')).toSorted());
});

/** Problems of a text that make worthless what it shows: it is not read as it was meant, or something it takes is not stated. */
const UNSOUND =
  /^(unknown_|unread|wrong_(kind|measure|value|word)|missing_(slot|file)|extra_detail|undecided|figures?_|not_listed)/;

/** A text is as short as it can be: it has no heading, lists more than it uses, and says so little that not all is judged. */
const QUIET = 'missing_head, never_used, not_judged';

for (const { alone, rules } of TABLES)
  describe.each(Object.entries(rules))('%s', (rule, [breaks, keeps]) => {
    test.each([breaks].flat())('is broken', (text) => {
      const found = problemsIn(text);
      const broken = found.filter(({ problem }) => problem.rule === rule);
      expect(broken).not.toEqual([]);
      expect(broken.map(({ problem }) => problem.message).join('\n')).not.toMatch(/cannot be told/i);
      expect(wordsOf(alone ? found.filter((one) => !broken.includes(one)) : unsound(found))).toEqual([]);
    });

    test('is kept', () => {
      const found = problemsIn(keeps);
      expect(
        wordsOf(alone ? found : [...found.filter(({ problem }) => problem.rule === rule), ...unsound(found)]),
      ).toEqual([]);
    });
  });

type Found = ReturnType<typeof problemsOf>;

function problemsIn(text: string): Found {
  return problemsOf(readFixture(`// quiet: ${QUIET}\n${text}\n`));
}

function unsound(found: Found): Found {
  return found.filter(({ problem }) => UNSOUND.test(problem.code));
}

function wordsOf(found: Found): readonly string[] {
  return found.map(({ problem }) => `${problem.rule ?? problem.code}: ${problem.message}`);
}
