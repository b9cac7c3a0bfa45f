import { join, resolve } from 'node:path';
import { anchor, protocolOf, slip } from './document.ts';
import type { Peers } from './peers.ts';

/** A language server, and the document it is measured on. */
export interface Server {
  readonly name: string;
  /** what Node runs, with its arguments */
  readonly program: readonly string[];
  readonly languageId: string;
  /** the ending of the document's name */
  readonly ending: string;
  /** it is asked for diagnostics after each change, instead of sending them by itself */
  readonly asked: boolean;
  /** timers, ms, that the server waits for on purpose after an edit, as its source has them */
  readonly waits: readonly number[];
  /** other files of the workspace: name, and what is written as JSON */
  readonly files?: Readonly<Record<string, unknown>>;
  readonly initializationOptions?: unknown;
  /** also answers what the server asks of its settings */
  readonly settings?: Readonly<Record<string, unknown>>;
  /** @returns the lines, and which of them an edit may fall in, from first to last */
  readonly document: (count: number) => { readonly lines: readonly string[]; readonly sites: readonly number[] };
  /** the letter `insert` behind the first `after` of such a line makes at least one more error */
  readonly edit: { readonly after: string; readonly insert: string };
  /** on one of those lines, behind what the answers are asked for */
  readonly completeAfter: string;
  readonly hoverAfter: string;
}

/**
 * Ours as the extension starts it: see `client/src/server.ts`.
 * @param cache where what V8 compiles is kept for the next start; without it every start is the first one
 */
export function ours(name: string, cache: string | undefined): Server {
  return {
    name,
    program: [
      '--max-semi-space-size=4',
      resolve('client/dist/start.js'),
      '--stdio',
      ...(cache === undefined ? [] : [`--code-cache=${cache}`]),
    ],
    languageId: 'curette',
    ending: '.curette',
    asked: false,
    waits: [],
    document: (count) => protocolOf(count),
    edit: { after: anchor, insert: slip },
    completeAfter: 'socket with ',
    hoverAfter: 'socket with s',
  };
}

/** Servers of general languages, each on a list of steps in its own syntax. */
export function others({ folder }: Peers): readonly Server[] {
  const schema = {
    type: 'object',
    properties: {
      steps: {
        type: 'array',
        items: {
          type: 'object',
          description: 'One step',
          required: ['id', 'takes', 'unit'],
          additionalProperties: false,
          properties: {
            id: { type: 'integer', description: 'Its number' },
            name: { type: 'string', description: 'Its name' },
            takes: { type: 'array', items: { type: 'integer' } },
            unit: { enum: ['min', 'h', 'd'], description: 'Unit of time' },
          },
        },
      },
    },
  };
  const json = {
    program: [join(folder, 'node_modules/vscode-langservers-extracted/bin/vscode-json-language-server'), '--stdio'],
    languageId: 'json',
    ending: '.json',
    files: { 'schema.json': schema },
    settings: { json: { validate: { enable: true }, schemas: [] } },
    document: listOf({
      head: ['{ "$schema": "./schema.json", "steps": ['],
      line: (at) => `  { "id": ${at}, "name": "step ${at}", "takes": [5, 10], "unit": "min" },`,
      foot: ['  { "id": 0, "takes": [5, 10], "unit": "min" }', ']}'],
    }),
    edit: { after: '"unit": "', insert: 'x' },
    completeAfter: '"unit": ',
    hoverAfter: '"na',
  };
  const langium = (name: string, before: (at: number) => string): Server => ({
    name,
    program: [join(folder, 'langium-server.mjs'), '--stdio'],
    languageId: 'steps',
    ending: '.steps',
    asked: false,
    waits: [],
    document: listOf({
      head: ['steps {', '  /** The first step. */ step t0 after none takes 5..10 min'],
      line: (at) => `  step t${at} after ${before(at)} takes 5..10 min`,
      foot: ['}'],
    }),
    edit: { after: 'after ', insert: 'x' },
    completeAfter: 'after ',
    hoverAfter: 'after t',
  });
  return [
    { ...json, name: 'JSON, asked', asked: true, waits: [] },
    { ...json, name: 'JSON, telling', asked: false, waits: [500] },
    {
      name: 'YAML',
      program: [join(folder, 'node_modules/yaml-language-server/bin/yaml-language-server'), '--stdio'],
      languageId: 'yaml',
      ending: '.yaml',
      asked: false,
      waits: [200],
      files: { 'schema.json': schema },
      settings: { yaml: { validate: true, hover: true, completion: true, schemaStore: { enable: false } } },
      document: listOf({
        head: ['# yaml-language-server: $schema=schema.json', 'steps:'],
        line: (at) => `  - {id: ${at}, name: step ${at}, takes: [5, 10], unit: min}`,
        foot: [],
      }),
      edit: { after: 'unit: ', insert: 'x' },
      completeAfter: 'unit: ',
      hoverAfter: ' na',
    },
    {
      name: 'TypeScript',
      program: [join(folder, 'node_modules/typescript-language-server/lib/cli.mjs'), '--stdio'],
      languageId: 'typescript',
      ending: '.ts',
      asked: false,
      // clamp(lines / 20, 300, 800), then another 50 before publishing: 350 up to 6,000 lines
      waits: [300, 50],
      initializationOptions: {
        disableAutomaticTypingAcquisition: true,
        tsserver: { path: join(folder, 'node_modules/typescript/lib/tsserver.js') },
      },
      files: {
        'tsconfig.json': {
          compilerOptions: { strict: true, target: 'es2022', module: 'esnext', types: [] },
          include: ['main.ts'],
        },
      },
      document: listOf({
        head: [
          "type Step = { id: number; name: string; after?: Step; takes: [number, number]; unit: 'min' | 'h' | 'd' };",
          "export const step0: Step = { id: 0, name: 'step 0', takes: [5, 10], unit: 'min' };",
        ],
        line: (at) =>
          `export const step${at}: Step = { id: ${at}, name: 'step ${at}', after: step${at - 1}, takes: [5, 10], unit: 'min' };`,
        foot: [],
      }),
      edit: { after: "unit: '", insert: 'x' },
      completeAfter: "unit: '",
      hoverAfter: 'after: st',
    },
    // Its default scope is searched from the front: the same document with late names, and with early ones.
    langium('Langium, names late', (at) => `t${at - 1}`),
    langium('Langium, names early', () => 't0'),
  ];
}

/** A list of steps: between its head and foot, the same line with its number. */
function listOf(list: {
  readonly head: readonly string[];
  readonly line: (at: number) => string;
  readonly foot: readonly string[];
}): Server['document'] {
  return (count) => {
    const room = count - list.head.length - list.foot.length;
    const body = Array.from({ length: room }, (_, at) => list.line(at + 1));
    return {
      lines: [...list.head, ...body, ...list.foot],
      sites: body.map((_, at) => list.head.length + at),
    };
  };
}
