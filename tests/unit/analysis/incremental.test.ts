/**
 * What is remembered makes the checker faster and changes no answer: after any run of edits, made one by one with the problems asked for
 * after each, every file has the problems that it has when it is read for the first time.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  type Content,
  createWorkspace,
  type FileId,
  offsetsOf,
  type TextChange,
  type Workspace,
} from '@curette/server';
import fc from 'fast-check';
import { expect, test } from 'vitest';

const folder = join(import.meta.dirname, '../../../examples');
const examples = new Map(
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.curette'))
    .sort()
    .map((name) => [name.replaceAll('\\', '/'), readFileSync(join(folder, name), 'utf8')]),
);
examples.set('protocols/long.curette', longer(examples.get('protocols/grafted_socket.curette') ?? '', 4));
// One with many problems, so that there is something to lose.
examples.set('drafts/long.curette', longer(examples.get('drafts/grafted_socket_draft.curette') ?? '', 4));
const ids = [...examples.keys()];

/** One edit: what is done, and where, as parts of the whole that hold for a text of any length. */
interface Edit {
  readonly file: number;
  readonly act: (typeof ACTS)[number];
  readonly at: number;
  readonly to: number;
  readonly sign: string;
}

const ACTS = [
  'remove a line',
  'repeat a line',
  'swap two lines',
  'move a line',
  'remove some lines',
  'remove a word',
  'change a word for another of the file',
  'change a number',
  'type a sign',
  'remove a sign',
  'type over a stretch',
  'take back',
] as const;

const SIGNS = [
  '{',
  '}',
  '"',
  ',',
  ' ',
  '\n',
  '(',
  ')',
  '/',
  '_',
  '.',
  ':',
  'x',
  '7',
  '\n\n',
  '// ',
  '/// ',
  '->',
  'ä',
  '😀',
];

/** A part of the whole. Floating numbers as they are drawn by themselves would nearly all be next to nought. */
const part = fc.noBias(fc.integer({ min: 0, max: 9999 })).map((tenThousandths) => tenThousandths / 10_000);

const edit: fc.Arbitrary<Edit> = fc.record({
  file: fc.noBias(fc.integer({ min: 0, max: ids.length - 1 })),
  act: fc.constantFrom(...ACTS),
  at: part,
  to: part,
  sign: fc.constantFrom(...SIGNS),
});

test('problems after edits one by one are those of the text read anew', { timeout: 600_000 }, () => {
  fc.assert(
    fc.property(fc.array(edit, { minLength: 1, maxLength: 10 }), (edits) => {
      const { texts, workspace } = edited(edits);
      const anew = workspaceWith(new Map());
      for (const [id, text] of texts) anew.open(id, text);
      for (const id of ids) expect({ id, problems: told(workspace, id) }).toEqual({ id, problems: told(anew, id) });
    }),
    { numRuns: Number(process.env.EDIT_RUNS ?? 300), seed: Number(process.env.EDIT_SEED ?? 20260301) },
  );
});

test('an edit taken back brings back the problems that were', () => {
  const workspace = workspaceWith(examples);
  const before = ids.map((id) => told(workspace, id));
  for (const id of ids) {
    const text = examples.get(id) ?? '';
    workspace.open(id, text);
    for (let start = 0; start < text.length; start += 97) {
      const removed = text.slice(start, start + 40);
      workspace.change(id, [{ start, end: start + removed.length, text: '' }]);
      workspace.facts(id);
      workspace.change(id, [{ start, end: start, text: removed }]);
    }
  }
  expect(ids.map((id) => told(workspace, id))).toEqual(before);
});

test('a place that is named no longer owes nothing', () => {
  const text = `kind gate is place {
  states   shut -> open -> shut
  must end shut by end of visit source common_practice
}
gate mouth
action prop (gate g) { makes g open }
protocol p {
  visit v {
    prop mouth
    note "Look"
  }
}
`;
  const line = '    prop mouth\n';
  const workspace = workspaceWith(new Map());
  workspace.open('a.curette', text);
  expect(told(workspace, 'a.curette').join('\n')).toContain('left_undone');
  const start = text.indexOf(line);
  workspace.change('a.curette', [{ start, end: start + line.length, text: '' }]);
  expect(told(workspace, 'a.curette').join('\n')).not.toContain('left_undone');
});

test('what was told at a pause is told at the end when the pause is gone, however far away that is', () => {
  const pause = '    pause sign_off\n';
  const text = `pause sign_off "Sign off" { takes 1 min }
kind screen is material {
  states   counted -> in_place -> removed
  must end counted or removed before pause sign_off source common_practice
  must end counted or removed by end of visit source common_practice
}
action place (screen s) { makes s in_place }
protocol p {
  materials { a : screen }
  visit v {
    place a
${pause}${'    note "Look"\n'.repeat(200)}  }
}
`;
  const workspace = workspaceWith(new Map());
  workspace.open('a.curette', text);
  expect(told(workspace, 'a.curette').filter((line) => line.startsWith('left_undone'))).toEqual([
    expect.stringContaining('at sign off'),
  ]);
  const start = text.indexOf(pause);
  workspace.change('a.curette', [{ start, end: start + pause.length, text: '' }]);
  expect(told(workspace, 'a.curette').filter((line) => line.startsWith('left_undone'))).toEqual([
    expect.stringContaining('at the end of the visit'),
  ]);
});

test('a file that was missing or no text is told of no longer when it is there', () => {
  const contents = new Map<string, Content>([['b.curette', { type: 'absent' }]]);
  const workspace = createWorkspace(
    (id) => contents.get(id) ?? { type: 'absent' },
    () => '2026-03-01',
  );
  workspace.open('a.curette', 'use b\n');
  const codes = (content: Content) => {
    contents.set('b.curette', content);
    workspace.refresh('b.curette');
    return workspace.facts('a.curette')?.problems.map((problem) => problem.code);
  };
  expect(codes({ type: 'absent' })).toEqual(['missing_file']);
  expect(codes({ type: 'bytes', bytes: new Uint8Array([0xff]) })).toEqual(['unusable_file']);
  expect(codes({ type: 'bytes', bytes: new Uint8Array() })).toEqual(['unused_use']);
  expect(codes({ type: 'absent' })).toEqual(['missing_file']);
});

test('the order in which files are asked for changes no answer', () => {
  const ring = new Map([
    ['a.curette', 'use b\nkind ka is kb\nkb one "One"\nunit pinch is 2 dabs\n'],
    ['b.curette', 'use a\nkind kb is kc\nkind kc is ka\nka two "Two"\nunit dab, dabs is 2 pinch\n'],
  ]);
  const [there, back] = [workspaceWith(ring), workspaceWith(ring)];
  const forward = ['a.curette', 'b.curette'].map((id) => told(there, id));
  const backward = ['b.curette', 'a.curette'].map((id) => told(back, id));
  expect(forward).toEqual(backward.reverse());
});

/** A protocol whose first visit does everything many times over: long enough to be taken up again in its middle. */
function longer(text: string, times: number): string {
  const [head = '', rest = ''] = text.split(/(?<=\n {2}visit .*\n)/, 2);
  const end = rest.search(/^ {2}\}$/m);
  const body = rest.slice(0, end).replace(/^ +stop .*\n/m, '');
  return `${head}${body.repeat(times)}${text.slice(head.length + end)}`;
}

/** The files after some edits, and the workspace in which they were made one by one. */
function edited(edits: readonly Edit[]): {
  readonly texts: ReadonlyMap<FileId, string>;
  readonly workspace: Workspace;
} {
  const texts = new Map(examples);
  const workspace = workspaceWith(texts);
  for (const id of ids) workspace.open(id, texts.get(id) ?? '');
  const ask = () => {
    for (const id of ids) workspace.facts(id);
  };
  ask();
  const undo: { id: FileId; change: TextChange }[] = [];
  for (const one of edits) {
    const taken = one.act === 'take back' ? undo.pop() : undefined;
    const id = taken?.id ?? ids[one.file % ids.length] ?? '';
    const text = texts.get(id) ?? '';
    const change = taken?.change ?? changeFor(text, one);
    if (!change) continue;
    const old = text.slice(change.start, change.end);
    if (!taken) undo.push({ id, change: { start: change.start, end: change.start + change.text.length, text: old } });
    texts.set(id, text.slice(0, change.start) + change.text + text.slice(change.end));
    workspace.change(id, [change]);
    ask();
  }
  return { texts, workspace };
}

function workspaceWith(texts: ReadonlyMap<FileId, string>): Workspace {
  return createWorkspace(
    (id) => {
      const text = texts.get(id);
      return text === undefined ? { type: 'absent' } : { type: 'bytes', bytes: new TextEncoder().encode(text) };
    },
    () => '2026-03-01',
  );
}

/** A file's problems as a reader sees them, in an order of their own. */
function told(workspace: Workspace, id: FileId): readonly string[] {
  const place = ({ file, ...rest }: Parameters<typeof offsetsOf>[1]) => {
    const tree = workspace.facts(file)?.file.tree;
    const span = tree && offsetsOf(tree, { file, ...rest });
    return span ? `${file}:${span.start}-${span.end}` : `${file}: gone`;
  };
  return (workspace.facts(id)?.problems ?? [])
    .map((problem) =>
      [
        problem.code,
        problem.severity,
        place(problem.place),
        problem.message,
        problem.label,
        ...problem.related.map((related) => `${place(related.place)} ${related.message}`),
        ...problem.mends.map((mend) => mend.title),
      ].join(' | '),
    )
    .sort();
}

function changeFor(text: string, { act, at, to, sign }: Edit): TextChange | undefined {
  const lines = [...text.matchAll(/.*(?:\n|$)/g)].filter(([line]) => line !== '');
  const words = [...text.matchAll(/[A-Za-z_]+/g)];
  const numbers = [...text.matchAll(/\d+(\.\d+)?/g)];
  const pick = <T>(list: readonly T[], part: number): T | undefined => list[Math.floor(part * list.length)];
  const over = (match: RegExpMatchArray | undefined, by: string | undefined): TextChange | undefined =>
    match?.index === undefined || by === undefined
      ? undefined
      : { start: match.index, end: match.index + match[0].length, text: by };
  const offset = Math.floor(at * (text.length + 1));
  switch (act) {
    case 'remove a line':
      return over(pick(lines, at), '');
    case 'repeat a line': {
      const line = pick(lines, at);
      return over(line, line && line[0] + line[0]);
    }
    case 'swap two lines': {
      const i = Math.floor(at * (lines.length - 1));
      const [one, other] = [lines[i], lines[i + 1]];
      return one?.index === undefined || !other
        ? undefined
        : { start: one.index, end: one.index + one[0].length + other[0].length, text: other[0] + one[0] };
    }
    case 'move a line': {
      const i = Math.floor(at * lines.length);
      const j = Math.floor(to * lines.length);
      const [low, high] = [Math.min(i, j), Math.max(i, j)];
      const moved = lines.slice(low, high + 1).map(([line]) => line);
      const start = lines[low]?.index ?? 0;
      return {
        start,
        end: start + moved.join('').length,
        text: (i < j ? [...moved.slice(1), ...moved.slice(0, 1)] : [...moved.slice(-1), ...moved.slice(0, -1)]).join(
          '',
        ),
      };
    }
    case 'remove some lines': {
      const first = Math.floor(at * lines.length);
      const some = lines.slice(first, first + 1 + Math.floor(to * 6));
      const start = some[0]?.index ?? 0;
      return { start, end: start + some.map(([line]) => line).join('').length, text: '' };
    }
    case 'remove a word':
      return over(pick(words, at), '');
    case 'change a word for another of the file':
      return over(pick(words, at), pick(words, to)?.[0]);
    case 'change a number':
      return over(pick(numbers, at), String(Math.floor(to * 90)));
    case 'type a sign':
    case 'take back':
      return { start: offset, end: offset, text: sign };
    case 'remove a sign':
      return { start: offset, end: Math.min(text.length, offset + 1), text: '' };
    case 'type over a stretch':
      return { start: offset, end: Math.min(text.length, offset + Math.floor(to * 60)), text: sign };
    default:
      return act satisfies never;
  }
}
