// npm run arrows: who may import whom.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { ensureInstalled, Failure, main, root } from './setup.mjs';

/**
 * The broken import rules in a tree laid out like this project.
 * @param {string} folder its root
 * @returns {Promise<{ violations: { rule: string, from: string, to: string, cycle: string[] }[], modules: number }>}
 */
export async function brokenArrows(folder) {
  const { cruise } = await import('dependency-cruiser');
  const { default: rules } = await import('../arrows/rules.mjs');
  const packages = ['grammar/src', 'shared/src', 'server/src', 'client/src', 'tests'].filter((name) =>
    existsSync(join(folder, name)),
  );
  const { output } = await cruise(packages, {
    ...rules.options,
    baseDir: folder,
    ruleSet: { forbidden: rules.forbidden },
    validate: true,
  });
  if (typeof output === 'string') throw new Failure(output);
  return {
    modules: output.summary.totalCruised,
    violations: output.summary.violations.map(({ rule, from, to, cycle }) => ({
      rule: rule.name,
      from,
      to,
      cycle: (cycle ?? []).map(({ name }) => name),
    })),
  };
}

/** Fails, naming each, when an import goes against the table. */
export async function checkArrows() {
  const { violations, modules } = await brokenArrows(root);
  if (violations.length > 0) {
    throw new Failure(
      violations
        .map(
          ({ rule, from, to, cycle }) =>
            `${from} may not import ${to} (${rule})${cycle.length > 0 ? `, which leads back by ${cycle.join(' -> ')}` : ''}`,
        )
        .join('\n'),
    );
  }
  process.stdout.write(`${modules} modules import only what they may.\n`);
}

if (process.argv[1] === import.meta.filename) {
  await main(async () => {
    await ensureInstalled();
    await checkArrows();
  });
}
