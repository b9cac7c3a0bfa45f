import { mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { brokenArrows } from '../scripts/arrows.mjs';

/**
 * The import rules are run over a small tree laid out like the project, with one file per arrow, so that each rule is
 * seen to let pass what it should and to report what it should.
 */
const forbidden: readonly [from: string, imports: string, rule: string][] = [
  ['grammar/src/a.ts', "import '@curette/shared';", 'grammar-stands-alone'],
  ['grammar/src/b.ts', "import 'node:fs';", 'pure-parts-know-no-process'],
  ['shared/src/a.ts', "import '@curette/server';", 'shared-knows-the-grammar-only'],
  ['shared/src/b.ts', "import { words } from '@curette/grammar'; words();", 'shared-takes-types-from-the-grammar'],
  ['server/src/lsp/a.ts', "import '../../../client/src/extension.ts';", 'server-does-not-know-the-client'],
  ['client/src/a.ts', "import '@curette/server';", 'client-shows-what-the-server-answers'],
  ['client/src/b.ts', "import '@curette/grammar';", 'client-shows-what-the-server-answers'],
  ['server/src/analysis/a.ts', "import '../ide/hover.ts';", 'analysis-is-pure'],
  ['server/src/analysis/b.ts', "import 'node:fs';", 'pure-parts-know-no-process'],
  ['server/src/analysis/c.ts', "import 'vscode-languageserver';", 'lsp-in-its-room'],
  ['server/src/problems/a.ts', "import '../render/page.ts';", 'problems-know-the-analysis-only'],
  ['server/src/ide/a.ts', "import '../lsp/convert.ts';", 'editor-answers-are-pure'],
  ['server/src/ide/b.ts', "import 'vscode-languageserver';", 'lsp-in-its-room'],
  ['server/src/render/a.ts', "import '../ide/hover.ts';", 'rendering-is-pure'],
  ['server/src/render/b.ts', "import 'node:process';", 'pure-parts-know-no-process'],
  ['server/src/cli/a.ts', "import '../lsp/convert.ts';", 'command-and-server-are-apart'],
  ['server/src/lsp/b.ts', "import '../cli/print.ts';", 'server-and-command-are-apart'],
  ['server/src/lsp/e.ts', "import 'node:fs';", 'the-server-needs-no-node'],
  ['server/src/lsp/f.ts', "import '../workspace/disk.ts';", 'the-server-runs-in-a-browser-too'],
  ['client/src/d.ts', "import './server.node.ts';", 'the-web-extension-needs-no-node'],
  ['server/src/cli/b.ts', "import 'chevrotain';", 'parser-library-in-the-grammar'],
  ['server/src/lsp/c.ts', "import 'commander';", 'command-line-in-its-room'],
  ['server/src/cli/c.ts', "import '../../../grammar/src/index.ts';", 'no-relative-way-into-another-package'],
  ['tests/lsp/a.ts', "import '../../grammar/src/words.ts';", 'no-relative-way-into-another-package'],
  ['server/src/render/c.ts', "import './d.ts';", 'no-cycles'],
  ['server/src/cli/d.ts', "import './nowhere.ts';", 'everything-resolves'],
  ['server/src/cli/f.ts', "import '@curette/grammar/src/words.ts';", 'everything-resolves'],
];

const allowed: readonly [from: string, imports: string][] = [
  ['grammar/src/c.ts', "import 'chevrotain';"],
  ['shared/src/c.ts', "import type { Word } from '@curette/grammar'; export type Mine = Word;"],
  ['shared/src/d.ts', "import 'zod';"],
  ['server/src/analysis/d.ts', "import '@curette/grammar'; import '@curette/shared';"],
  ['server/src/analysis/e.ts', "import '../problems/one.ts';"],
  ['server/src/ide/c.ts', "import '../analysis/facts.ts'; import '../problems/one.ts';"],
  ['server/src/render/e.ts', "import '../analysis/facts.ts';"],
  ['server/src/lsp/d.ts', "import '../ide/hover.ts'; import 'vscode-languageserver';"],
  ['server/src/lsp/main.ts', "import '../workspace/disk.ts'; import 'node:fs';"],
  ['server/src/cli/e.ts', "import '../render/page.ts'; import 'commander'; import 'node:fs';"],
  ['client/src/c.ts', "import type { Message } from '@curette/shared'; export type Mine = Message; import 'vscode';"],
  ['tests/unit/a.ts', "import '../../grammar/src/words.ts';"],
  ['tests/a.ts', "import '@curette/server'; import '@curette/grammar'; import 'vscode-languageserver';"],
];

/** What the arrows above lead to. */
const targets: Record<string, string> = {
  'grammar/src/index.ts': 'export type Word = string; export function words(): void {}',
  'shared/src/index.ts': 'export type Message = string;',
  'grammar/src/words.ts': 'export {};',
  'server/src/index.ts': 'export {};',
  'client/src/extension.ts': 'export {};',
  'server/src/analysis/facts.ts': 'export {};',
  'server/src/problems/one.ts': 'export {};',
  'server/src/ide/hover.ts': 'export {};',
  'server/src/render/page.ts': 'export {};',
  'server/src/render/d.ts': "import './c.ts';",
  'server/src/workspace/disk.ts': 'export {};',
  'client/src/server.node.ts': 'export {};',
  'server/src/lsp/convert.ts': 'export {};',
  'server/src/cli/print.ts': 'export {};',
};

const folder = realpathSync(mkdtempSync(join(tmpdir(), 'curette-arrows-')));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let broken: Awaited<ReturnType<typeof brokenArrows>>['violations'];
beforeAll(async () => {
  for (const name of ['grammar', 'shared', 'server']) {
    write(`${name}/package.json`, JSON.stringify({ name: `@curette/${name}`, exports: './src/index.ts' }));
    link(`node_modules/@curette/${name}`, join(folder, name));
  }
  for (const name of ['chevrotain', 'zod', 'commander', 'vscode-languageserver', 'vscode']) {
    write(`node_modules/${name}/package.json`, JSON.stringify({ name, main: 'index.js' }));
    write(`node_modules/${name}/index.js`, '');
  }
  for (const [path, text] of [...Object.entries(targets), ...forbidden, ...allowed]) write(path, text);
  broken = (await brokenArrows(folder)).violations;
});

describe('a wrong import is reported', () => {
  test.each(forbidden)('%s: %s', (from, _imports, rule) => {
    expect(rulesBrokenBy(from)).toContain(rule);
  });
});

describe('a right import passes', () => {
  test.each(allowed)('%s: %s', (from) => {
    expect(rulesBrokenBy(from)).toEqual([]);
  });
});

test('every rule is shown to fail', async () => {
  const { default: rules } = await import('./rules.mjs');
  const shown = new Set(forbidden.map(([, , rule]) => rule));
  expect(rules.forbidden.map(({ name }) => name).filter((name) => !shown.has(name))).toEqual([]);
});

function rulesBrokenBy(from: string): string[] {
  return broken.filter((violation) => violation.from === from).map(({ rule }) => rule);
}

function write(path: string, text: string): void {
  mkdirSync(dirname(join(folder, path)), { recursive: true });
  writeFileSync(join(folder, path), text);
}

function link(path: string, to: string): void {
  mkdirSync(dirname(join(folder, path)), { recursive: true });
  symlinkSync(to, join(folder, path));
}
