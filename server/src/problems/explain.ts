import type { Module } from '../analysis/names/module.ts';
import { problemKinds } from './index.generated.ts';
import type { AnyProblemKind } from './problem.ts';

/** The page about a kind of problem, as markdown; undefined when there is none of that code. */
export function problemPage(code: string): string | undefined {
  const kind = Object.hasOwn(problemKinds, code) ? problemKinds[code] : undefined;
  return kind && pageOf(kind, 1);
}

/** The pages of all kinds of problem, one below the other, as markdown. */
export function allPages(): string {
  const kinds = Object.values(problemKinds);
  return [
    '# Problems',
    'Everything that the checker tells, by the code that stands with it. Made by `npm run generate` from the files of [src/problems](src/problems); do not edit.',
    'In the examples the carets stand under the words that the editor underlines. What is an *error* makes a protocol unfit for use; a *warning* can go wrong, or is very likely an oversight; *advice* is worth knowing.',
    ['| code | | |', '| --- | --- | --- |', ...kinds.map(lineOf)].join('\n'),
    ...kinds.map((kind) => pageOf(kind, 2)),
  ]
    .join('\n\n')
    .concat('\n');
}

/**
 * The page about a rule of the library or of an institution, as markdown: what it asks for, why, and what it rests on. Undefined when no
 * file that the module reaches declares it.
 */
export function rulePage(module: Module, name: string): string | undefined {
  const scope = module.closure.find((other) => other.rules.has(name));
  const home = scope && module.module(scope.id);
  const rule = home?.declarations.rule(name);
  if (!rule) return undefined;
  const source = home?.citation(rule.source)?.citation;
  return [
    `# ${rule.label}`,
    `\`${rule.name}\` · rule · ${rule.severity}`,
    rule.statement.doc,
    rule.why && `**Why:** ${rule.why}.`,
    source && `**Source:** ${source}.`,
    rule.replaces && `It replaces the rule \`${rule.replaces}\`.`,
    `Declared in \`${rule.file.replace(/^library:/, '')}\`. An institution that has reason to do otherwise declares a rule of its own with \`replaces ${rule.name}\`, and says why.`,
  ]
    .filter((part) => part !== undefined && part !== '')
    .join('\n\n')
    .replaceAll(/([.!?])\.(\n|$)/g, '$1$2');
}

/** An example as it is shown: what only the tests read is left out. */
export function shownExample(example: string): string {
  return example
    .replace(/^\n/, '')
    .replace(/^\/\/ quiet: .*\n/, '')
    .trimEnd();
}

function pageOf(kind: AnyProblemKind, level: number): string {
  const heading = (depth: number) => '#'.repeat(depth);
  return [
    `${heading(level)} ${kind.title}`,
    `\`${kind.code}\` · ${kind.severity}`,
    kind.page,
    `${heading(level + 1)} With the problem`,
    fenced(kind.triggers),
    `${heading(level + 1)} Without it`,
    fenced(kind.silent),
  ].join('\n\n');
}

function fenced(example: string): string {
  return `\`\`\`curette\n${shownExample(example)}\n\`\`\``;
}

function lineOf(kind: AnyProblemKind): string {
  const anchor = kind.title
    .toLowerCase()
    .replaceAll(/[^a-z0-9 -]/g, '')
    .replaceAll(' ', '-');
  return `| [${kind.code}](#${anchor}) | ${kind.title} | ${kind.severity} |`;
}
