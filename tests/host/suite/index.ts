import { appendFileSync } from 'node:fs';
import { join } from 'node:path';
import Mocha from 'mocha';
import type { Report } from '../report.ts';

/**
 * The editor's extension host calls this; every test of the suite then runs inside the editor, with its `vscode` at
 * hand. Each result is written as it comes, so that a crash or a hang leaves the name of the last test that ended.
 */
export function run(): Promise<void> {
  const file = process.env.CURETTE_HOST_REPORT;
  if (file === undefined) throw new Error('CURETTE_HOST_REPORT does not say where the results go.');
  const report = (entry: Report) => appendFileSync(file, `${JSON.stringify(entry)}\n`);

  const mocha = new Mocha({ ui: 'tdd', timeout: 30_000, forbidOnly: true, forbidPending: true });
  mocha.addFile(join(import.meta.dirname, 'suite.cjs'));
  return new Promise((resolve, reject) => {
    try {
      mocha
        .run((failures) => {
          report({ kind: 'end' });
          if (failures === 0) resolve();
          else reject(new Error(`${failures} tests failed`));
        })
        .on('test', (test) => report({ kind: 'began', name: test.fullTitle() }))
        .on('pass', (test) => report({ kind: 'passed', name: test.fullTitle(), duration: test.duration ?? 0 }))
        // Also a hook that fails arrives here, under its own name.
        .on('fail', (test, error: Error) =>
          report({ kind: 'failed', name: test.fullTitle(), error: error.stack ?? String(error) }),
        );
    } catch (error) {
      report({
        kind: 'failed',
        name: 'the suite can be loaded',
        error: String(error instanceof Error ? error.stack : error),
      });
      report({ kind: 'end' });
      reject(error);
    }
  });
}
