import { chmodSync, readdirSync, readFileSync, statSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, onTestFinished, test } from 'vitest';
import { bundled, type Command, folderWith } from './curette.ts';

let curette: Command;
beforeAll(async () => {
  curette = await bundled();
});
afterAll(() => curette.remove());

const crooked = 'kind cloth "cloth" is material{\nwidth:length\nthread   : text\n}\n';
const straight = 'kind cloth "cloth" is material {\n  width  : length\n  thread : text\n}\n';
const broken = 'kind a "A"\n\nkind b "B" is == c\n';

function inFolder(files: Readonly<Record<string, string | Uint8Array>>) {
  const [cwd, remove] = folderWith(files);
  onTestFinished(remove);
  return { cwd, text: (path: string) => readFileSync(join(cwd, path), 'utf8') };
}

describe('files and folders', () => {
  test('are laid out, and those that change are named', async () => {
    const { cwd, text } = inFolder({ 'a.curette': crooked, 'b/c.curette': crooked, 'b/d.curette': straight });
    expect(await curette.run(['format'], { cwd })).toEqual({
      status: 0,
      out: 'Changed a.curette\nChanged b/c.curette\n3 files: 2 changed.\n',
      error: '',
    });
    expect([text('a.curette'), text('b/c.curette'), text('b/d.curette')]).toEqual([straight, straight, straight]);
    expect(await curette.run(['format', '.'], { cwd })).toMatchObject({ status: 0, out: '3 files: none changed.\n' });
    expect(readdirSync(cwd).sort()).toEqual(['a.curette', 'b']);
  });

  test('units are spelled as their codes', async () => {
    const { cwd, text } = inFolder({ 'a.curette': 'material a "A" {\n  volume 5 ml\n}\n' });
    await curette.run(['format', 'a.curette'], { cwd });
    expect(text('a.curette')).toBe('material a "A" {\n  volume 5 mL\n}\n');
  });

  test('keep their permissions, their byte order mark and the links that lead to them', async () => {
    const { cwd, text } = inFolder({ 'a.curette': `\ufeff${crooked}` });
    chmodSync(join(cwd, 'a.curette'), 0o640);
    symlinkSync('a.curette', join(cwd, 'b.curette'));
    expect((await curette.run(['format', 'b.curette'], { cwd })).status).toBe(0);
    expect(text('a.curette')).toBe(`\ufeff${straight}`);
    expect(statSync(join(cwd, 'a.curette')).mode & 0o777).toBe(0o640);
    expect(readdirSync(cwd, { withFileTypes: true }).map((entry) => entry.isSymbolicLink())).toEqual([false, true]);
  });
});

describe('with --check', () => {
  test('nothing is written, what would change is named, and 1', async () => {
    const { cwd, text } = inFolder({ 'a.curette': crooked, 'b.curette': straight });
    expect(await curette.run(['format', '--check'], { cwd })).toEqual({
      status: 1,
      out: 'Would change a.curette\n2 files: 1 would change.\n',
      error: '',
    });
    expect(text('a.curette')).toBe(crooked);
  });

  test('0 when nothing would', async () => {
    const { cwd } = inFolder({ 'b.curette': straight });
    expect(await curette.run(['format', '--check'], { cwd })).toMatchObject({
      status: 0,
      out: '1 file: none would change.\n',
    });
  });
});

describe('a file that can not be laid out is told and left, the others are done, and 2', () => {
  test('something in it can not be read', async () => {
    const { cwd, text } = inFolder({ 'a.curette': broken, 'b.curette': crooked });
    const { status, out, error } = await curette.run(['format'], { cwd });
    expect(status).toBe(2);
    expect(out).toBe('Changed b.curette\n2 files: 1 changed, 1 left as it is.\n');
    expect(error).toContain('a.curette:3:15');
    expect(error).toContain('kind b "B" is == c');
    expect(error).toContain('a.curette was left as it is.');
    expect([text('a.curette'), text('b.curette')]).toEqual([broken, straight]);
    expect((await curette.run(['format', '--check'], { cwd })).status).toBe(2);
  });

  test('lines of a merge', async () => {
    const merged = `<<<<<<< mine\n${crooked}=======\n${straight}>>>>>>> theirs\n`;
    const { cwd, text } = inFolder({ 'a.curette': merged });
    const { status, error } = await curette.run(['format'], { cwd });
    expect(status).toBe(2);
    expect(error).toContain('a.curette:1:1');
    expect(text('a.curette')).toBe(merged);
  });

  test('it is no text', async () => {
    const { cwd } = inFolder({ 'a.curette': new Uint8Array([0, 255, 254, 0]), 'b.curette': straight });
    const { status, out, error } = await curette.run(['format'], { cwd });
    expect(status).toBe(2);
    expect(out).toBe('2 files: none changed, 1 left as it is.\n');
    expect(error).toContain('it is not a text file');
    expect(readFileSync(join(cwd, 'a.curette'))).toEqual(Buffer.from([0, 255, 254, 0]));
  });

  test('it is read-only', async () => {
    const { cwd, text } = inFolder({ 'a.curette': crooked, 'b.curette': crooked });
    chmodSync(join(cwd, 'a.curette'), 0o444);
    const { status, out, error } = await curette.run(['format'], { cwd });
    expect(status).toBe(2);
    expect(error).toBe('a.curette could not be written: it is read-only.\n');
    expect(out).toBe('Changed b.curette\n2 files: 1 changed, 1 left as it is.\n');
    expect(text('a.curette')).toBe(crooked);
  });

  test('nothing can be written beside it', async () => {
    // A name as long as a name can be: that of the file beside it would be longer.
    const name = `${'a'.repeat(245)}.curette`;
    const { cwd, text } = inFolder({ [name]: crooked });
    const { status, error } = await curette.run(['format'], { cwd });
    expect(status).toBe(2);
    expect(error).toContain('could not be written: the name is too long.');
    expect(text(name)).toBe(crooked);
    expect(readdirSync(cwd)).toEqual([name]);
  });

  test.each([
    ['a path that is not there', ['format', 'nowhere.curette']],
    ['a file that is no protocol', ['format', 'notes.txt']],
  ])('%s', async (_, args) => {
    const { cwd } = inFolder({ 'notes.txt': 'notes', 'a.curette': crooked });
    const { status, out, error } = await curette.run(args, { cwd });
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(error.length).toBeGreaterThan(10);
  });
});

test('a file that is written while it is read is whole at every moment', async () => {
  const large = `${crooked}${'\n'.repeat(3)}`.repeat(3000);
  const { cwd, text } = inFolder({ 'a.curette': large });
  const running = curette.run(['format'], { cwd });
  const seen = new Set<number>();
  let done = false;
  void running.then(() => {
    done = true;
  });
  while (!done) {
    seen.add(text('a.curette').length);
    await new Promise((later) => setTimeout(later, 5));
  }
  expect((await running).status).toBe(0);
  const result = text('a.curette');
  expect([...seen].filter((length) => length !== large.length && length !== result.length)).toEqual([]);
  expect(result).not.toBe(large);
  expect(readdirSync(cwd)).toEqual(['a.curette']);
});
