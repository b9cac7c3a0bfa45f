// npm test: everything, in the order in which a fault is cheapest to find. Stops at the first stage that fails.
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { checkArrows } from './arrows.mjs';
import { build } from './build.mjs';
import { checkGenerated } from './generate.mjs';
import { packageBuilt } from './package.mjs';
import { ensureHostPackages, ensureInstalled, Failure, main, root, run, seconds } from './setup.mjs';

const counts = { passed: 0, failed: 0 };

const stages = [
  ['packages', ensureInstalled],
  ['packages of the system', ensureHostPackages],
  ['generated files are current', checkGenerated],
  ['lint and format', () => run('biome', ['check', '--error-on-warnings'])],
  ['types', () => run('tsc', ['-b'])],
  ['import arrows', checkArrows],
  ['build', build],
  ['package', packageBuilt],
  ['tests', () => vitest('unit')],
  ['tests in a real editor', () => vitest('host')],
];

await main(async () => {
  for (const [name, work] of stages) {
    const began = performance.now();
    process.stdout.write(`\n== ${name}\n`);
    try {
      await work();
    } catch (error) {
      if (counts.failed > 0) process.stdout.write(`\n${counts.passed} passed, ${counts.failed} failed\n`);
      throw error instanceof Failure ? new Failure(`FAILED at: ${name}\n${error.message}`) : error;
    }
    process.stdout.write(`== ${name}: ${seconds(began)}\n`);
  }
  process.stdout.write(`\n${counts.passed} passed, ${counts.failed} failed\n`);
});

/** Runs one of the two vitest projects and adds what it counted. A test that was skipped is a failure. */
async function vitest(project) {
  const report = join(root, `tests/dist/results-${project}.json`);
  mkdirSync(join(report, '..'), { recursive: true });
  rmSync(report, { force: true });
  const config = ['--config', 'tests/vitest.config.ts', '--project', project];
  const status = await run(
    'vitest',
    ['run', ...config, '--reporter=default', '--reporter=json', `--outputFile.json=${report}`],
    {
      allow: [1],
    },
  );
  const { numPassedTests, numFailedTests, numPendingTests, numTodoTests } = JSON.parse(readFileSync(report, 'utf8'));
  counts.passed += numPassedTests;
  counts.failed += numFailedTests;
  if (status !== 0) throw new Failure(`${numFailedTests} tests failed, or a test file could not be run; see above.`);
  if (numPendingTests + numTodoTests > 0)
    throw new Failure(`${numPendingTests + numTodoTests} tests were skipped. Nothing is skipped here.`);
  if (numPassedTests === 0) throw new Failure('No test was run.');
}
