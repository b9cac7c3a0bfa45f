import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { problemsOutput } from '@curette/shared';
import { afterAll, beforeAll, describe, expect, onTestFinished, test } from 'vitest';
import { bundled, type Command, folderWith } from './curette.ts';

let curette: Command;
beforeAll(async () => {
  curette = await bundled();
});
afterAll(() => curette.remove());

const sound = 'kind cloth "cloth" is material { }\n';
const faulty = 'kind cloth "cloth" is matrial { }\n';
const warned = `
role joiner "Joiner"
action rub "Rub" (place p) { takes 1 min }
place shelf "Shelf"
protocol a "A" {
  version 1.0.0
  status  draft
  owner   "Workshop"
  team { joiner }
  visit v "V" { verify "It shines" }
}
`;

function inFolder(files: Readonly<Record<string, string | Uint8Array>>): string {
  const [folder, remove] = folderWith(files);
  onTestFinished(remove);
  return folder;
}

describe('how it ends', () => {
  test('0 when nothing of that severity is there', async () => {
    const cwd = inFolder({ 'a.curette': sound });
    expect(await curette.run(['check'], { cwd })).toMatchObject({
      status: 0,
      out: '1 file checked, no problem found.\n',
      error: '',
    });
  });

  test('1 when there is', async () => {
    const cwd = inFolder({ 'a.curette': faulty });
    const { status, out } = await curette.run(['check', 'a.curette'], { cwd });
    expect(status).toBe(1);
    expect(out).toContain('error in a.curette:1:23');
    expect(out).toMatch(/\n1 file checked: 1 error\.\n$/);
  });

  test('a warning is a failure only when it is to be one', async () => {
    const cwd = inFolder({ 'a.curette': warned.replace('{ takes 1 min }', '{\n  takes 1 min\n}') });
    expect((await curette.run(['check'], { cwd })).out).toContain('warning in a.curette');
    expect((await curette.run(['check'], { cwd })).status).toBe(0);
    expect((await curette.run(['check', '--fail-on', 'error'], { cwd })).status).toBe(0);
    expect((await curette.run(['check', '--fail-on', 'warning'], { cwd })).status).toBe(1);
  });

  test.each([
    ['an option that is not there', ['check', '--nothing']],
    ['a format that is not there', ['check', '--format', 'xml']],
    ['a severity that is not there', ['check', '--fail-on', 'advice']],
    ['a command that is not there', ['chek']],
    ['a path that is not there', ['check', 'nowhere.curette']],
    ['a file that is no protocol', ['check', 'notes.txt']],
    ['a folder without protocols', ['check', 'empty']],
    ['a file taken for a folder', ['check', 'notes.txt/a.curette']],
  ])('2 for %s, and it says so', async (_, args) => {
    const cwd = inFolder({ 'notes.txt': 'notes' });
    mkdirSync(join(cwd, 'empty'));
    const { status, out, error } = await curette.run(args, { cwd });
    expect(status).toBe(2);
    expect(out).toBe('');
    expect(error.length).toBeGreaterThan(10);
    expect(error).not.toContain('    at ');
  });

  test('without a command it shows its help, and 2', async () => {
    const { status, error } = await curette.run([]);
    expect(status).toBe(2);
    expect(error).toContain('Usage: curette');
  });
});

describe('files that cannot be taken as text', () => {
  test.each([
    ['bytes that are no text', new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0, 1, 2, 255]), 'it is not a text file'],
    ['more than eight megabytes', new Uint8Array(9 * 1024 * 1024).fill(0x61), 'it is larger than a protocol can be'],
  ])('%s: told, and 2, and the others are still checked', async (_, bytes, reason) => {
    const cwd = inFolder({ 'a.curette': faulty, 'b.curette': bytes });
    const { status, out } = await curette.run(['check'], { cwd });
    expect(status).toBe(2);
    expect(out).toContain(reason);
    expect(out).toContain('error in a.curette:1:23');
  });

  test('what is no plain file, such as a pipe, is told and not waited for', async () => {
    const cwd = inFolder({});
    execFileSync('mkfifo', [join(cwd, 'a.curette')]);
    const { status, out } = await curette.run(['check', 'a.curette'], { cwd });
    expect(status).toBe(2);
    expect(out).toContain('it could not be read');
  });

  test('five megabytes are read and checked', async () => {
    const line = 'kind cloth "cloth" is material { }\n';
    const cwd = inFolder({ 'a.curette': `${'// comment that says nothing much\n'.repeat(155_000)}${line}` });
    expect(readFileSync(join(cwd, 'a.curette')).length).toBeGreaterThan(5_000_000);
    expect(await curette.run(['check'], { cwd })).toMatchObject({ status: 0, error: '' });
  });

  test('an empty file has nothing wrong with it', async () => {
    const cwd = inFolder({ 'a.curette': '' });
    expect(await curette.run(['check'], { cwd })).toMatchObject({ status: 0 });
  });
});

describe('which files', () => {
  test('all below a folder, each once, in a stable order; hidden folders and node_modules are passed over', async () => {
    const cwd = inFolder({
      'b.curette': sound,
      'a/deep/c.curette': sound,
      'a/a.curette': sound,
      '.hidden/d.curette': faulty,
      'node_modules/x/e.curette': faulty,
      'notes.md': '',
    });
    const { out } = await curette.run(['check', '.', 'a', 'b.curette', '--format', 'json'], { cwd });
    expect(problemsOutput.parse(JSON.parse(out)).files.map(({ path }) => path)).toEqual([
      'a/a.curette',
      'a/deep/c.curette',
      'b.curette',
    ]);
  });

  test('a link to a protocol outside the workspace is not read, and told', async () => {
    const secret = inFolder({ 'secret.curette': 'kind secret "secret" is matrial { }\n' });
    const cwd = inFolder({ 'w/curette.json': '{}', 'w/a.curette': sound });
    symlinkSync(join(secret, 'secret.curette'), join(cwd, 'w/link.curette'));
    symlinkSync(secret, join(cwd, 'w/folder'));
    const { status, out, error } = await curette.run(['check', 'w'], { cwd });
    expect(status).toBe(2);
    expect(out).toContain('it is a link that leads out of the workspace');
    expect(out).not.toContain('matrial');
    expect(error).toBe('Not looked into: w/folder is a link that leads out of the workspace.\n');
  });

  test('a link to a folder above it is gone through once', async () => {
    const cwd = inFolder({ 'curette.json': '{}', 'a/a.curette': sound });
    symlinkSync('..', join(cwd, 'a/up'));
    const { status, out } = await curette.run(['check'], { cwd });
    expect({ status, out }).toEqual({ status: 0, out: '1 file checked, no problem found.\n' });
  });

  test('a file uses what lies in its workspace, and nothing outside of it, by path or by link', async () => {
    const cwd = inFolder({
      'outside.curette': 'kind outside_kind "x" is material { }\n',
      'w/curette.json': '{}',
      'w/house.curette': sound,
      'w/p/inside.curette': 'use ../house\ncloth linen "Linen"\n',
      'w/p/climbing.curette': 'use ../../outside\n',
      'w/p/linked.curette': 'use ../link\n',
    });
    symlinkSync(join(cwd, 'outside.curette'), join(cwd, 'w/link.curette'));
    const inside = await curette.run(['check', 'w/p/inside.curette'], { cwd });
    expect(inside).toMatchObject({ status: 0 });
    const climbing = await curette.run(['check', 'w/p/climbing.curette'], { cwd });
    expect(climbing).toMatchObject({ status: 1 });
    expect(climbing.out).toContain('lies outside the workspace and is not read');
    const linked = await curette.run(['check', 'w/p/linked.curette'], { cwd });
    expect(linked).toMatchObject({ status: 1 });
    expect(linked.out).toContain('a link that leads out of the workspace');
  });

  test('without a mark of its own, the folder it is run in is the workspace', async () => {
    const cwd = inFolder({ 'house.curette': sound, 'p/a.curette': 'use ../house\ncloth linen "Linen"\n' });
    expect(await curette.run(['check', 'p/a.curette'], { cwd })).toMatchObject({ status: 0 });
    const beside = await curette.run(['check', join(cwd, 'p/a.curette')], { cwd: inFolder({}) });
    expect(beside.out).toContain('lies outside the workspace');
  });
});

describe('what it prints', () => {
  test('JSON that its schema describes, with mends that can be made', async () => {
    const cwd = inFolder({ 'a.curette': faulty, 'b.curette': new Uint8Array([0]) });
    const { status, out } = await curette.run(['check', '--format', 'json'], { cwd });
    expect(status).toBe(2);
    const output = problemsOutput.parse(JSON.parse(out));
    expect(output.files).toEqual([
      { path: 'a.curette', read: true },
      { path: 'b.curette', read: false },
    ]);
    expect(output.counts).toEqual({ error: 2, warning: 0, advice: 0 });
    expect(output.problems[0]).toMatchObject({
      code: 'unknown_kind',
      file: 'a.curette',
      range: { line: 1, column: 23, endLine: 1, endColumn: 30, start: 22, end: 29 },
    });
    const [edit] = output.problems[0]?.mends[0]?.edits ?? [];
    expect(edit).toEqual({ file: 'a.curette', start: 22, end: 29, text: 'material' });
  });

  test('the draft with mistakes shows what it was made to show', async () => {
    const { status, out } = await curette.run(['check', 'examples/drafts']);
    expect(status).toBe(1);
    for (const words of [
      'clock_broken',
      'holding_membrane_on_graft',
      'still in place',
      '1,000 times',
      'option_missing',
    ])
      expect(out).toContain(words);
  });

  test('no colour into a pipe, whatever the surroundings say', async () => {
    const cwd = inFolder({ 'a.curette': faulty });
    for (const env of [{}, { FORCE_COLOR: '1' }, { CI: 'true' }]) {
      const { out } = await curette.run(['check'], { cwd, env });
      expect(out).not.toContain('\u001b');
    }
  });

  test('a name of a file is shown, not obeyed', async () => {
    const cwd = inFolder({ 'a\u001b[31m.curette': faulty });
    const { out } = await curette.run(['check'], { cwd });
    expect(out).toContain('a␛[31m.curette');
    expect(out).not.toContain('\u001b');
  });
});
