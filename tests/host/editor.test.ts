import { expect, test } from 'vitest';
import { runSuite } from './run.ts';

// The suite runs once, inside the editor, while this file is read; each of its tests is then reported here by name.
const results = await runSuite(process.env.CURETTE_HOST === 'desktop' ? 'desktop' : 'page');

test('the suite in the editor has tests', () => {
  expect(results.length).toBeGreaterThan(0);
});

for (const { name, error } of results) {
  test(name, () => {
    if (error !== undefined) throw new Error(error);
  });
}
