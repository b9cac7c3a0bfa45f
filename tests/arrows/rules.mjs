// Which folder may import which: the table in DEVELOPERS.md, as rules. arrows.test.ts shows that each of them can fail.

/** Packages that only the named part may use. */
const only = (name, from, packages, comment) => ({
  name,
  comment,
  severity: 'error',
  from: { pathNot: from },
  to: { path: packages.map((name) => `(^|/)node_modules/${name}(/|$)`) },
});

const forbid = (name, from, to, comment) => ({ name, comment, severity: 'error', from, to });

const inside = (folder) => ({ path: `^${folder}/src/` });

export default {
  forbidden: [
    forbid(
      'grammar-stands-alone',
      inside('grammar'),
      { path: '^(shared|server|client|tests)/' },
      'The grammar imports nothing of ours.',
    ),
    forbid(
      'shared-knows-the-grammar-only',
      inside('shared'),
      { path: '^(server|client|tests)/' },
      'What both sides share may import the grammar only.',
    ),
    forbid(
      'shared-takes-types-from-the-grammar',
      inside('shared'),
      { path: '^grammar/', dependencyTypesNot: ['type-only'] },
      'From the grammar the shared part takes types only.',
    ),
    forbid(
      'server-does-not-know-the-client',
      inside('server'),
      { path: '^(client|tests)/' },
      'The server may import grammar and shared.',
    ),
    forbid(
      'client-shows-what-the-server-answers',
      inside('client'),
      { path: '^(grammar|server|tests)/' },
      'The client knows no clinical rule: it may import shared only.',
    ),
    forbid(
      'analysis-is-pure',
      { path: '^server/src/analysis/' },
      { path: '^server/src/(?!analysis/|problems/)' },
      'The analysis core knows no editor, no page, no process.',
    ),
    forbid(
      'problems-know-the-analysis-only',
      { path: '^server/src/problems/' },
      { path: '^server/src/(?!analysis/|problems/)' },
      'A problem is worded from facts.',
    ),
    forbid(
      'editor-answers-are-pure',
      { path: '^server/src/ide/' },
      { path: '^server/src/(lsp|cli|workspace)/' },
      'Editor answers are offsets, labels and edits; the protocol layer only converts.',
    ),
    forbid(
      'rendering-is-pure',
      { path: '^server/src/render/' },
      { path: '^server/src/(ide|lsp|cli|workspace)/' },
      'A page is made from facts.',
    ),
    forbid(
      'command-and-server-are-apart',
      { path: '^server/src/cli/' },
      { path: '^server/src/lsp/' },
      'Two thin edges.',
    ),
    forbid(
      'server-and-command-are-apart',
      { path: '^server/src/lsp/' },
      { path: '^server/src/cli/' },
      'Two thin edges.',
    ),
    forbid(
      'pure-parts-know-no-process',
      { path: '^(grammar/src|shared/src|server/src/(analysis|problems|ide|render))/' },
      { dependencyTypes: ['core'] },
      'No file system, no clock, no process in the pure parts.',
    ),
    forbid(
      'the-server-runs-in-a-browser-too',
      {
        path: '^server/src/(lsp|workspace)/',
        pathNot: '^server/src/(lsp/(main|start)|workspace/(disk|disk-files|walk|git))\\.ts$',
      },
      {
        path: '^server/src/workspace/(disk|disk-files|walk|git)\\.ts$|(^|/)node_modules/vscode-languageserver/lib/node/',
      },
      'Reading a disk and being a process is for the named files alone: the rest is what a worker runs.',
    ),
    forbid(
      'the-server-needs-no-node',
      {
        path: '^server/src/(lsp|workspace)/',
        pathNot: '^server/src/(lsp/(main|start)|workspace/(disk|disk-files|walk|git))\\.ts$',
      },
      { dependencyTypes: ['core'] },
      'The same for what only Node has.',
    ),
    forbid(
      'the-web-extension-needs-no-node',
      { path: '^client/src/', pathNot: '^client/src/(extension|server\\.node)\\.ts$' },
      { path: '^client/src/server\\.node\\.ts$|(^|/)node_modules/vscode-languageclient/lib/node/' },
      'Starting a process is for the extension on a machine; the rest runs in a browser as well.',
    ),
    forbid(
      'no-relative-way-into-another-package',
      { path: '^(grammar|shared|server|client|tests)/', pathNot: '^tests/(unit|reference|bench|support)/' },
      { path: '^(grammar|shared|server|client)/src/', pathNot: '^$1/', dependencyTypes: ['local'] },
      'Another package is imported by its name, not by a path; what tests or measures a part by itself may reach it.',
    ),
    only(
      'lsp-in-its-room',
      '^(server/src/lsp|client/src|tests)/',
      ['vscode-languageserver.*', 'vscode-languageclient', 'vscode-jsonrpc'],
      'Only the protocol layer speaks LSP.',
    ),
    only(
      'parser-library-in-the-grammar',
      '^(grammar/src|tests)/',
      ['chevrotain'],
      'Only the grammar knows how it parses.',
    ),
    only(
      'command-line-in-its-room',
      '^(server/src/cli|tests)/',
      ['commander', 'picocolors'],
      'Only the command knows it is a command.',
    ),
    forbid(
      'no-cycles',
      { pathNot: '^server/src/analysis/' },
      { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } },
      'No import cycle, types aside. Inside the checker, what is recursive in the language (a decision holds steps, of which one may be a decision) may be so in the code.',
    ),
    forbid(
      'everything-resolves',
      { pathNot: '^tests/bench/peers/' },
      { couldNotResolve: true, pathNot: '^vscode$' },
      'Every import leads somewhere; what the benchmark compares with is installed when it runs.',
    ),
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '(^|/)(dist|out)/' },
    tsPreCompilationDeps: true,
    detectProcessBuiltinModuleCalls: true,
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'node', 'types', 'default'],
      extensions: ['.ts', '.mjs', '.js', '.json'],
    },
  },
};
