/**
 * Nothing that a file can hold makes the checker throw or hang, and none of it is met with silence about what was not read. Time is not
 * measured here; a test that hangs runs into its timeout.
 */
import { createWorkspace, LARGEST_FILE, problemText, unpainted } from '@curette/server';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

const HEAD = '  version 1.0.0\n  status draft\n  owner "Unit"\n';

test.each<readonly [what: string, text: string, code: string | undefined]>([
  ['an empty file', '', undefined],
  ['line ends alone', '\n\r\n\r\n\n', undefined],
  ['a byte order mark', '\uFEFFkind a is material\n', undefined],
  ['lone halves of letters', 'kind a is \uD800 \uDFFF material\n', undefined],
  ['a zero byte', 'kind a is material\n\u0000\n', 'unusable_file'],
  ['a single brace', '{', undefined],
  ['ten thousand closing braces', '}'.repeat(10_000), 'stray_close'],
  ['ten thousand opening braces', '{'.repeat(10_000), undefined],
  ['ten thousand nested blocks', `${'protocol p {\nvisit v {\n'.repeat(5_000)}${'}\n'.repeat(10_000)}`, 'too_deep'],
  ['ten thousand nested steps', nested('repeat until "x" at most 2 times {', 10_000), 'too_deep'],
  ['ten thousand nested decisions', nested('decide wall { otherwise {', 5_000, '}}'), 'too_deep'],
  ['ten thousand brackets', `rule r {\n  expect ${'('.repeat(10_000)}1${')'.repeat(10_000)}\n}\n`, 'too_deep'],
  ['ten thousand ands', `rule r {\n  expect ${'a is b and '.repeat(10_000)}a is b\n}\n`, undefined],
  ['ten thousand nots', `rule r {\n  expect ${'not '.repeat(10_000)}a is b\n}\n`, undefined],
  ['a long sum', `rule r {\n  expect ${'1 + '.repeat(10_000)}1 < 2\n}\n`, undefined],
  ['a very long name', `kind ${'a'.repeat(1_000_000)} is material\n`, undefined],
  ['a very long line of signs', '=>'.repeat(200_000), undefined],
  ['a very long text', `protocol p "${'x'.repeat(1_000_000)}" {\n${HEAD}}\n`, 'missing_head'],
  ['a long chain of states', `kind a {\n  states ${names('s', 5_000).join(' -> ')}\n}\n`, undefined],
  [
    'a number that no one can hold',
    'kind a { x : mass within 1 mg..1e999 mg }\nunit b is 99999999999999999999 mg\n',
    undefined,
  ],
])('%s', (_, text, code) => {
  const problems = problemsIn(text);
  expect(problems).not.toContain('internal_failure');
  if (code !== undefined) expect(problems).toContain(code);
});

test.each<readonly [what: string, text: string]>([
  [
    'a decision of two thousand options',
    protocol(`finding f { ${names('v', 2_000).join(', ')} }`, [
      `decide f {\n${names('v', 2_000)
        .map((value) => `option ${value} { note "x" }`)
        .join('\n')}\n}`,
    ]),
  ],
  [
    'a thousand lanes',
    protocol('action do (place p)', [
      `together {\n${names('l', 1_000)
        .map((lane) => `lane ${lane} { do site }`)
        .join('\n')}\n}`,
    ]),
  ],
  [
    'ten thousand steps',
    protocol(
      'action do (place p)',
      names('n', 10_000).map((n) => `do site because "${n}"`),
    ),
  ],
  [
    'two hundred decisions one after another, each of which changes something',
    protocol(
      `${names('f', 200)
        .map((f) => `finding ${f} { here, gone }`)
        .join(
          '\n',
        )}\nkind pack is place {\nstates out -> in -> out\nmust end out by end of visit source common_practice\n}\naction put (pack p) { makes p in }`,
      names('f', 200).map((f) => `decide ${f} {\noption here { put wad }\noption gone { }\n}`),
      'wad : pack',
    ),
  ],
  [
    'forty repetitions inside one another',
    protocol(
      'kind pack is place { states out -> in -> out }\naction put (pack p) { makes p in }',
      [nested('repeat until "x" at most 3 times {', 40, '}', 'put wad')],
      'wad : pack',
    ),
  ],
  [
    'a decision over twenty findings in a hundred awkward rows',
    protocol(
      names('f', 20)
        .map((f) => `finding ${f} { here, gone }`)
        .join('\n'),
      [awkward()],
    ),
  ],
  [
    'procedures that call the next four times over, sixteen deep',
    `${names('q', 17)
      .map((q, i) => `procedure ${q} (place p) {\n${i < 16 ? `q${i + 1} p\n`.repeat(4) : 'note "end"'}\n}`)
      .join('\n')}\n${protocol('', ['q0 site'])}`,
  ],
  [
    'a thousand kinds, each of the one before',
    names('k', 1_000)
      .map((k, i) => `kind ${k} is ${i === 0 ? 'material' : `k${i - 1}`} { p${i} : length }`)
      .join('\n'),
  ],
  [
    'a thousand things of one name',
    protocol(
      '',
      [],
      names('x', 1_000)
        .map(() => 'same : place')
        .join('\n'),
    ),
  ],
  [
    'two thousand rules',
    `action do (place p)\n${names('r', 2_000)
      .map((r) => `rule ${r} "R" {\ncount do (place p) at most 2 times in a visit\nwhy "x"\nsource common_practice\n}`)
      .join('\n')}\n${protocol('', ['do site'])}`,
  ],
])('%s', { timeout: 120_000 }, (_, text) => {
  expect(problemsIn(text)).not.toContain('internal_failure');
});

describe('files and how they use each other', () => {
  test('a file that uses itself a thousand times', () => {
    expect(new Set(problemsIn('use main\n'.repeat(1_000)))).toEqual(new Set(['use_cycle']));
  });

  test('a thousand files in a ring', () => {
    const files = new Map(
      names('a', 1_000).map((name, i) => [`${name}.curette`, `use a${(i + 1) % 1_000}\nkind k${i} is material\n`]),
    );
    const workspace = workspaceOf(files);
    expect(workspace.facts('a0.curette')?.problems.map((problem) => problem.code)).toContain('use_cycle');
  });

  test('a file larger than any protocol is told as that, open or kept', () => {
    const large = `// ${'x'.repeat(LARGEST_FILE)}\n`;
    expect(problemsIn(large)).toEqual(['unusable_file']);
    const workspace = workspaceOf(new Map());
    workspace.open('main.curette', large);
    expect(workspace.facts('main.curette')?.problems.map((problem) => problem.code)).toEqual(['unusable_file']);
  });

  test('five megabytes of lines are read', { timeout: 300_000 }, () => {
    const line = 'kind name_of_a_kind "what it is called" is material { length : length }\n';
    const text = Array.from({ length: Math.ceil((5 * 1024 * 1024) / line.length) }, (_, i) =>
      line.replace('name_of', `n${i}`),
    ).join('');
    expect(problemsIn(text)).toEqual([]);
  });

  test('bytes that are no text are told as that', () => {
    fc.assert(
      fc.property(fc.uint8Array({ minLength: 1, maxLength: 400 }), (bytes) => {
        const workspace = createWorkspace(
          () => ({ type: 'bytes', bytes }),
          () => '2026-03-01',
        );
        const codes = workspace.facts('main.curette')?.problems.map((problem) => problem.code) ?? [];
        expect(codes).not.toContain('internal_failure');
        if (!isText(bytes)) expect(codes).toEqual(['unusable_file']);
      }),
      { numRuns: 300, seed: 1 },
    );
  });
});

test('any run of the words of the language is checked, and every problem of it can be shown', {
  timeout: 300_000,
}, () => {
  fc.assert(
    fc.property(fc.array(fc.constantFrom(...WORDS), { maxLength: 120 }), (words) => {
      const text = words.join(' ').replaceAll(' \n ', '\n');
      const workspace = workspaceOf(new Map([['main.curette', text]]));
      const facts = workspace.facts('main.curette');
      for (const problem of facts?.problems ?? []) {
        expect(problem.code).not.toBe('internal_failure');
        expect(problem.message.trim()).not.toBe('');
        const shown = problemText(problem, (id) => workspace.facts(id)?.file, {
          width: 80,
          paint: unpainted,
          name: (id) => id,
        });
        expect(shown).toContain(problem.title);
      }
    }),
    { numRuns: 500, seed: 1 },
  );
});

const WORDS = [
  ...'protocol kind action rule visit given materials instruments team decide option otherwise together lane repeat until'.split(
    ' ',
  ),
  ...'verify wait pause stop complication procedure finding source unit case use exclude caution when where expect whenever'.split(
    ' ',
  ),
  ...'needs makes uses up takes by because is has with into on at most least times any states lasts then must end of in'.split(
    ' ',
  ),
  ...'material place patient surgeon common_practice wall lost p v a b c'.split(' '),
  ...[
    '{',
    '}',
    '(',
    ')',
    ',',
    ':',
    '->',
    '..',
    '"x"',
    '\n',
    '\n',
    '\n',
    '10',
    'min',
    'mm',
    '10..20 min',
    '1:1000',
    '=',
    '<=',
    '/// doc\n',
    '// x\n',
  ],
];

function workspaceOf(files: ReadonlyMap<string, string>) {
  return createWorkspace(
    (id) => {
      const text = files.get(id);
      return text === undefined ? { type: 'absent' } : { type: 'bytes', bytes: new TextEncoder().encode(text) };
    },
    () => '2026-03-01',
  );
}

/** The codes of a file's problems. */
function problemsIn(text: string): readonly string[] {
  return (
    workspaceOf(new Map([['main.curette', text]]))
      .facts('main.curette')
      ?.problems.map((problem) => problem.code) ?? []
  );
}

function names(letter: string, count: number): string[] {
  return Array.from({ length: count }, (_, i) => `${letter}${i}`);
}

function nested(open: string, times: number, close = '}', inside = 'note "x"'): string {
  return `${`${open}\n`.repeat(times)}${inside}\n${`${close}\n`.repeat(times)}`;
}

function protocol(declarations: string, steps: readonly string[], things = 'site : place'): string {
  return `${declarations}\nprotocol p "P" {\n${HEAD}  given {\n${things}\n}\n  visit v "V" {\n${steps.join('\n')}\n}\n}\n`;
}

/** Rows of which each leaves all but three of twenty findings open: no shortcut sees through them. */
function awkward(): string {
  const rows = Array.from({ length: 100 }, (_, row) =>
    names('f', 20)
      .map((_, column) => ((row * 7 + column * 3) % 20 < 3 ? ((row + column) % 2 === 0 ? 'here' : 'gone') : 'any'))
      .join(', '),
  );
  return `decide ${names('f', 20).join(', ')} {\n${rows.map((row) => `option ${row} { }`).join('\n')}\n}`;
}

function isText(bytes: Uint8Array): boolean {
  try {
    return !new TextDecoder('utf-8', { fatal: true }).decode(bytes).includes('\u0000');
  } catch {
    return false;
  }
}
