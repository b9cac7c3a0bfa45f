/**
 * The fixture language: protocols with marks in them, in which every test of the checker and of the editor's answers is written.
 *
 *     // quiet: not_judged, missing_head
 *     //- protocols/a.curette
 *     use ../shared/house
 *     // ^^^^^^^^^^^^^^^ unused_use: Nothing of
 *
 *     //- shared/house.curette
 *     ...
 *
 * **Files.** `//- path` begins a file. Text before the first such line is the file `main.curette`; nearly every fixture is that alone.
 * A path may be followed by what is the matter with a file that is not read as text: `//- scan.curette not text`, `too large`,
 * `unreadable`, `outside` (a link that leads out of the workspace). The shipped library is always there. A file `curette.json` holds the
 * settings of its folder.
 *
 * **Marks.** A comment whose first sign is a caret says what is expected in the line above it: the carets stand under the words that
 * are underlined there, then comes the problem's code or, for a broken rule, the rule's name; after a colon, words that its message has
 * to contain. One mark a line; several may follow a line of text.
 *
 *     lay cover on gingiva
 *     //           ^^^^^^^ holding_membrane_on_graft: soft tissue
 *
 * * Words over several lines are marked on their first line.
 * * `<` in place of the first caret stretches the mark back to the beginning of the line, under the `//` itself: `// <^^^ code`.
 * * `|` in place of carets marks a place between two letters.
 * * A mark above the first line of a file stands for the file as a whole.
 *
 * Marks are taken out before the text is read.
 *
 * **Exactness.** Every problem of every file has to be marked, and every mark met. Only codes named in a line `// quiet: code, code` at the
 * top are left aside.
 *
 * **Cursor.** `$0` is where the cursor stands, a pair of them a selection. They too are taken out.
 *
 * **Defects of ours.** A step whose line ends in `//! fails` makes the checker fail when it gets there.
 */
import type { Statement, SyntaxTree } from '@curette/grammar';
import {
  type Content,
  createAnalysis,
  createWorkspace,
  type FileFacts,
  type FileId,
  LARGEST_FILE,
  type Mend,
  mendsOf,
  offsetsOf,
  type Place,
  type Problem,
  replacementsOf,
  type Severity,
  type Snapshot,
  type SourceFile,
  type Workspace,
} from '@curette/server';
import { expect } from 'vitest';

export interface Fixture {
  readonly files: readonly FixtureFile[];
  /** codes and rule names left aside */
  readonly quiet: ReadonlySet<string>;
  readonly cursor: Cursor | undefined;
}

export interface FixtureFile {
  readonly id: FileId;
  /** without marks and cursors */
  readonly text: string;
  readonly trouble: SourceFile['trouble'];
  readonly marks: readonly Mark[];
  /** starts of lines that make the checker fail */
  readonly failing: readonly number[];
}

export interface Mark {
  /** number of the line in `text`, from 0; -1 for the file as a whole */
  readonly line: number;
  /** columns, from 0; equal for a place between two letters */
  readonly from: number;
  readonly to: number;
  /** of the problem or of the rule that it tells of */
  readonly name: string;
  readonly severity: Severity | undefined;
  /** what the message has to contain */
  readonly words: string | undefined;
}

export interface Cursor {
  readonly file: FileId;
  readonly start: number;
  /** as `start` unless a selection was marked */
  readonly end: number;
}

/** A problem where it is shown: its line and columns there. */
export interface Shown {
  readonly problem: Problem;
  readonly file: FileId;
  readonly line: number;
  readonly from: number;
  readonly to: number;
}

/** Asserts that the checker finds exactly the problems that a fixture marks. */
export function check(fixture: string): void {
  const read = readFixture(fixture);
  expect(written(read, asFound(read, problemsOf(read)))).toBe(written(read, asExpected(read)));
}

/**
 * Asserts what a mend makes of a fixture. `before` has one problem, or the cursor stands on the one that is meant; `after` is the
 * text of the same files, of which those that stay as they are may be left out.
 */
export function checkMend(before: string, title: string, after: string): void {
  const fixture = readFixture(before);
  const mend = mendsAt(fixture).find((other) => other.title === title);
  if (!mend) throw new Error(`no mend "${title}"; there is ${list(mendsAt(fixture).map((other) => other.title))}`);
  const mended = withMend(fixture, mend);
  for (const { id, text } of readFixture(after).files)
    expect(mended.files.find((file) => file.id === id)?.text).toBe(text);
}

/** A fixture after a mend; its marks are left out, since they stand where they stood. */
export function withMend(fixture: Fixture, mend: Mend): Fixture {
  const replacements = replacementsOf(workspaceOf(fixture), mend.edits);
  if (!replacements) throw new Error(`the mend "${mend.title}" cannot be made`);
  const texts = new Map(fixture.files.map(({ id, text }) => [id, text]));
  for (const { file, start, end, text } of [...replacements].reverse()) {
    const old = texts.get(file);
    if (old === undefined) throw new Error(`the mend "${mend.title}" changes ${file}, which is not there`);
    texts.set(file, old.slice(0, start) + text + old.slice(end));
  }
  return {
    ...fixture,
    cursor: undefined,
    files: fixture.files.map((file) => ({ ...file, marks: [], text: texts.get(file.id) ?? file.text })),
  };
}

/** Asserts that no mend is offered for the problems of a fixture, or for those under its cursor. */
export function checkNoMend(fixture: string): void {
  const read = readFixture(fixture);
  expect(problemsUnderCursor(read)).not.toEqual([]);
  expect(mendsAt(read).map((mend) => mend.title)).toEqual([]);
}

/** Every problem of every file of a fixture that is not left aside, in the order of files and lines. */
export function problemsOf(fixture: Fixture): readonly Shown[] {
  const facts = factsOf(fixture);
  return fixture.files.flatMap(({ id, text }) => {
    const shown: Shown[] = [];
    for (const problem of facts(id)?.problems ?? []) {
      if (fixture.quiet.has(problem.code) || (problem.rule !== undefined && fixture.quiet.has(problem.rule))) continue;
      shown.push({ problem, file: id, ...columnsOf(text, problem.place, offsetsIn(facts, problem.place)) });
    }
    return shown.sort((a, b) => a.line - b.line || a.from - b.from || a.to - b.to || order(a.problem, b.problem));
  });
}

/** A fixture's text with a mark under each of its problems, which is what `check` accepts. For writing tests, not for running them. */
export function withMarks(fixture: string, words: boolean): string {
  const read = readFixture(fixture);
  const bare = { ...read, files: read.files.map((file) => ({ ...file, marks: [] })) };
  const found = asFound(bare, problemsOf(bare));
  return written(
    bare,
    found.map((mark) => (words ? mark : { ...mark, severity: undefined, words: undefined })),
  );
}

/** The facts of each file of a fixture. */
export function factsOf(fixture: Fixture): (id: FileId) => FileFacts | undefined {
  const workspace = workspaceOf(fixture);
  if (fixture.files.every((file) => file.failing.length === 0)) return workspace.facts;
  const sound = workspace.snapshot();
  const files = new Map(
    fixture.files.map(({ id, failing }) => {
      const file = sound.file(id);
      return [id, file && { ...file, tree: sabotaged(file.tree, failing) }];
    }),
  );
  const snapshot: Snapshot = { ...sound, file: (id) => files.get(id) ?? sound.file(id) };
  const analysis = createAnalysis();
  return (id) => analysis.facts(snapshot, id);
}

/** The mends that are offered for a problem of a fixture. */
export function mendsFor(fixture: Fixture, { problem }: Shown): readonly Mend[] {
  return mendsOf(workspaceOf(fixture), problem);
}

function mendsAt(fixture: Fixture): readonly Mend[] {
  const workspace = workspaceOf(fixture);
  return problemsUnderCursor(fixture).flatMap(({ problem }) => mendsOf(workspace, problem));
}

function problemsUnderCursor(fixture: Fixture): readonly Shown[] {
  const { cursor } = fixture;
  const found = problemsOf(fixture);
  if (!cursor) return found;
  const text = fixture.files.find(({ id }) => id === cursor.file)?.text ?? '';
  const before = text.slice(0, cursor.start);
  const line = before.split('\n').length - 1;
  const column = cursor.start - (before.lastIndexOf('\n') + 1);
  return found.filter(
    (shown) => shown.file === cursor.file && shown.line === line && shown.from <= column && column <= shown.to,
  );
}

/** A workspace that keeps the files of a fixture; none of them is open. */
export function workspaceOf(fixture: Fixture): Workspace {
  const contents = new Map(fixture.files.map((file) => [file.id, contentOf(file)]));
  return createWorkspace(
    (id) => contents.get(id) ?? { type: 'absent' },
    () => TODAY,
  );
}

/** The day on which every fixture is checked. */
export const TODAY = '2026-03-01';

/** Takes a fixture apart. A file, mark or line of another form fails at once. */
export function readFixture(fixture: string): Fixture {
  const quiet = new Set<string>();
  const files: Draft[] = [];
  let cursor: Cursor | undefined;
  const lines = fixture.replace(/^\n/, '').replace(/\n *$/, '\n').split('\n');
  if (lines.at(-1) === '') lines.pop();
  for (const line of lines) {
    const hush = /^\/\/ quiet: (.+)$/.exec(line);
    if (hush?.[1] && files.length === 0) {
      for (const code of hush[1].split(',')) quiet.add(code.trim());
      continue;
    }
    const head = /^\/\/- (\S+\.curette|(?:\S+\/)?curette\.json)(?: (not text|too large|unreadable|outside))?$/.exec(
      line,
    );
    if (head?.[1]) {
      if (files.some((file) => file.id === head[1])) throw new Error(`two files are called ${head[1]}`);
      files.push({ id: head[1], trouble: head[2] as FixtureFile['trouble'], lines: [], marks: [], failing: [] });
      continue;
    }
    if (line.startsWith('//-')) throw new Error(`no file begins with "${line}"`);
    let file = files.at(-1);
    if (!file) {
      file = { id: 'main.curette', trouble: undefined, lines: [], marks: [], failing: [] };
      files.push(file);
    }
    const mark = readMark(line, file.lines.at(-1) ?? '', file.lines.length - 1);
    if (mark) {
      file.marks.push(mark);
      continue;
    }
    const start = file.lines.reduce((length, other) => length + other.length + 1, 0);
    const fails = line.replace(/ *\/\/! fails$/, '');
    if (fails !== line) file.failing.push(start + fails.search(/\S/));
    const [before = '', ...after] = fails.split('$0');
    if (after.length > 0) {
      const end: number = start + before.length;
      const [selected = ''] = after;
      if (cursor && (cursor.file !== file.id || cursor.start !== cursor.end || after.length > 1))
        throw new Error('one cursor or one selection');
      cursor = cursor
        ? { ...cursor, end }
        : { file: file.id, start: end, end: after.length === 2 ? end + selected.length : end };
    }
    file.lines.push([before, ...after].join(''));
  }
  return {
    quiet,
    cursor,
    files: files.map(({ lines, ...file }) => ({ ...file, text: lines.map((line) => `${line}\n`).join('') })),
  };
}

interface Draft extends Omit<FixtureFile, 'text'> {
  readonly lines: string[];
  readonly marks: Mark[];
  readonly failing: number[];
}

function readMark(line: string, above: string, number: number): Mark | undefined {
  const match = /^( *\/\/ *)(<?\^+|<|\||@(\d+)\.\.(\d+)) ([a-z]\w*)(?: \((error|warning|advice)\))?(?:: (.+))?$/.exec(
    line,
  );
  if (!match) return undefined;
  const [, lead = '', sign = '', from, to, name = '', severity, words] = match;
  const at = lead.length;
  const base = { line: number, name, severity: severity as Mark['severity'], words };
  if (number < 0) return { ...base, from: 0, to: 0 };
  if (from !== undefined && to !== undefined) return { ...base, from: Number(from), to: Number(to) };
  if (sign === '|') return { ...base, from: at, to: at };
  return { ...base, from: sign.startsWith('<') ? above.search(/\S|$/) : at, to: at + sign.length };
}

function contentOf({ text, trouble }: FixtureFile): Content {
  switch (trouble) {
    case 'unreadable':
    case 'outside':
      return { type: trouble };
    case 'not text':
      return { type: 'bytes', bytes: new Uint8Array([0x50, 0x4b, 0x03, 0x04, 0xff, 0xfe, 0x00]) };
    case 'too large':
      return { type: 'bytes', bytes: new Uint8Array(LARGEST_FILE + 1) };
    case undefined:
      return { type: 'bytes', bytes: new TextEncoder().encode(text) };
    default:
      return trouble satisfies never;
  }
}

/** The tree with its steps at the given offsets made to throw when they are looked into. */
function sabotaged(tree: SyntaxTree, failing: readonly number[]): SyntaxTree {
  let done = 0;
  const inside = (body: SyntaxTree['body'], base: number): SyntaxTree['body'] => ({
    ...body,
    items: body.items.map((item, i) => {
      const start = base + (body.offsets[i] ?? 0);
      if (failing.includes(start) && item.type === 'step') {
        done++;
        return Object.defineProperty({ ...item }, 'parts', {
          enumerable: true,
          get: () => {
            throw new Error('made to fail');
          },
        });
      }
      return item.body ? ({ ...item, body: inside(item.body, start) } as Statement) : item;
    }),
  });
  const body = inside(tree.body, 0);
  if (done !== failing.length) throw new Error('only a step can be made to fail');
  return { ...tree, body };
}

function offsetsIn(facts: (id: FileId) => FileFacts | undefined, place: Place): { start: number; end: number } {
  const file = facts(place.file)?.file;
  const offsets = file && offsetsOf(file.tree, place);
  if (!offsets) throw new Error(`a problem stands at a place that is not there: ${JSON.stringify(place)}`);
  return offsets;
}

function columnsOf(text: string, place: Place, { start, end }: { start: number; end: number }) {
  if (place.statement === 0 && start === 0 && end === 0) return { line: -1, from: 0, to: 0 };
  const lineStart = text.lastIndexOf('\n', start - 1) + 1;
  const lineEnd = text.indexOf('\n', start);
  const line = text.slice(0, lineStart).split('\n').length - 1;
  return { line, from: start - lineStart, to: Math.min(end, lineEnd < 0 ? text.length : lineEnd) - lineStart };
}

interface PlacedMark extends Mark {
  readonly file: FileId;
}

function asExpected(fixture: Fixture): readonly PlacedMark[] {
  return fixture.files.flatMap((file) => file.marks.map((mark) => ({ ...mark, file: file.id })));
}

/** What was found, worded as the mark that stands for it; what no mark stands for has its whole message. */
function asFound(fixture: Fixture, found: readonly Shown[]): readonly PlacedMark[] {
  const open = new Set(asExpected(fixture));
  const take = (shown: Shown, fits: (mark: Mark) => boolean) => {
    for (const mark of open)
      if (
        mark.file === shown.file &&
        mark.line === shown.line &&
        mark.from === shown.from &&
        mark.to === shown.to &&
        (mark.name === shown.problem.code || mark.name === shown.problem.rule) &&
        (mark.severity === undefined || mark.severity === shown.problem.severity) &&
        fits(mark)
      ) {
        open.delete(mark);
        return mark;
      }
    return undefined;
  };
  return found.map((shown) => {
    const { problem, file, line, from, to } = shown;
    const mark =
      take(shown, ({ words }) => words !== undefined && problem.message.includes(words)) ??
      take(shown, ({ words }) => words === undefined);
    const { severity, message } = problem;
    return mark ?? { file, line, from, to, name: problem.rule ?? problem.code, severity, words: message };
  });
}

/** The texts with marks written under their lines. */
function written(fixture: Fixture, marks: readonly PlacedMark[]): string {
  const alone = fixture.files.length === 1 && fixture.files[0]?.id === 'main.curette';
  const quiet = fixture.quiet.size > 0 ? [`// quiet: ${[...fixture.quiet].join(', ')}`] : [];
  const lines = fixture.files.flatMap(({ id, text, trouble, failing }) => {
    const own = marks
      .filter((mark) => mark.file === id)
      .sort((a, b) => a.from - b.from || a.to - b.to || (markText(a) < markText(b) ? -1 : 1));
    const under = (line: number, above: string) =>
      own.filter((mark) => mark.line === line).map((mark) => markLine(mark, above));
    return [
      ...(alone ? [] : [`//- ${id}${trouble ? ` ${trouble}` : ''}`]),
      ...under(-1, ''),
      ...text
        .split('\n')
        .slice(0, -1)
        .reduce<{ lines: string[]; start: number }>(
          ({ lines, start }, line, i) => {
            const fails = failing.includes(start + line.search(/\S|$/));
            lines.push(fails ? `${line} //! fails` : line, ...under(i, line));
            return { lines, start: start + line.length + 1 };
          },
          { lines: [], start: 0 },
        ).lines,
    ];
  });
  return [...quiet, ...lines, ''].join('\n');
}

function markLine(mark: Mark, above: string): string {
  const { line, from, to } = mark;
  const text = markText(mark);
  if (line < 0) return `// ^ ${text}`;
  const indent = above.search(/\S|$/);
  const comment = from >= indent + 3 ? `${' '.repeat(indent)}//` : '//';
  if (from === to && from >= 3) return `${comment.padEnd(from)}| ${text}`;
  if (to > from && from >= 3) return `${comment.padEnd(from)}${'^'.repeat(to - from)} ${text}`;
  if (from === indent && to >= 4) return `// <${'^'.repeat(to - 4)} ${text}`;
  return `// @${from}..${to} ${text}`;
}

function markText({ name, severity, words }: Mark): string {
  return `${name}${severity === undefined ? '' : ` (${severity})`}${words === undefined ? '' : `: ${words}`}`;
}

function order(a: Problem, b: Problem): number {
  const [one, other] = [`${a.code} ${a.message}`, `${b.code} ${b.message}`];
  return one < other ? -1 : one > other ? 1 : 0;
}

function list(words: readonly string[]): string {
  return words.length > 0 ? words.map((word) => `"${word}"`).join(', ') : 'none';
}
