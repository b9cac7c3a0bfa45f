import { libraryFiles, nearestFew } from '@curette/shared';
import { problemPage, rulePage } from '../problems/explain.ts';
import { problemKinds } from '../problems/index.generated.ts';
import { listWords } from '../problems/words.ts';
import { visible } from '../render/text.ts';
import { openInputs } from './inputs.ts';
import { print, UsageError } from './output.ts';

/**
 * Prints the page about a kind of problem, or about a rule: of the shipped library, or of the protocols here. @returns the exit status
 */
export function explain(name: string): number {
  const page = problemPage(name) ?? pageOfRule(name);
  if (page === undefined) {
    const near = nearestFew(name, [...Object.keys(problemKinds), ...ruleNames()], 3);
    const hint = near.length > 0 ? ` Was ${listWords(near.map((one) => `"${one}"`))} meant?` : '';
    throw new UsageError(visible(`There is no problem and no rule called "${name}".${hint}`));
  }
  print(`${page.trimEnd()}\n`);
  return 0;
}

function pageOfRule(name: string): string | undefined {
  for (const module of modules()) {
    const page = rulePage(module, name);
    if (page !== undefined) return page;
  }
  return undefined;
}

function ruleNames(): string[] {
  return modules().flatMap((module) => [...module.scope.rules.keys()]);
}

/** The files of the library, then those below the folder the command is run in. */
function modules() {
  const here = openHere();
  const library = libraryFiles.map(({ path }) => `library:${path}`);
  return here.flatMap(({ workspace, ids }) =>
    [...library, ...ids].flatMap((id) => workspace.modules().module(id) ?? []),
  );
}

function openHere() {
  return openInputs(['.'], () => undefined, 'may be none');
}
