import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, onTestFinished, test } from 'vitest';
import { bundled, type Command, folderWith, root } from './curette.ts';

let curette: Command;
beforeAll(async () => {
  curette = await bundled();
});
afterAll(() => curette.remove());

const grafted = join(root, 'examples/protocols/grafted_socket.curette');
const draft = join(root, 'examples/drafts/grafted_socket_draft.curette');
const bare = (name: string) =>
  `protocol ${name} "${name}" {\n  version 1.0.0\n  status draft\n  owner "W"\n  visit v "V" { note "n" }\n}\n`;

function inFolder(files: Readonly<Record<string, string | Uint8Array>>): string {
  const [folder, remove] = folderWith(files);
  onTestFinished(remove);
  return folder;
}

describe('curette checklist', () => {
  test('prints Markdown, or one HTML page', async () => {
    const markdown = await curette.run(['checklist', grafted]);
    expect(markdown).toMatchObject({ status: 0, error: '' });
    expect(markdown.out).toMatch(/^# Grafted extraction socket without a flap\n/);
    const html = await curette.run(['checklist', grafted, '--format', 'html']);
    expect(html).toMatchObject({ status: 0, error: '' });
    expect(html.out).toMatch(/^<!doctype html>\n/);
    expect(html.out.trimEnd()).toMatch(/<\/html>$/);
  });

  test('one with errors is made, and said to be unfit', async () => {
    const { status, out, error } = await curette.run(['checklist', draft]);
    expect(status).toBe(0);
    expect(out).toContain('NOT FIT FOR USE');
    expect(error).toMatch(/^grafted_socket_draft is not fit for use: the checker found \d+ errors\.\n$/);
  });

  test('writes a file whole, and leaves nothing else behind', async () => {
    const cwd = inFolder({ 'sheet.html': 'old' });
    expect(await curette.run(['checklist', grafted, '--format', 'html', '--out', 'sheet.html'], { cwd })).toMatchObject(
      {
        status: 0,
        out: '',
      },
    );
    expect(readFileSync(join(cwd, 'sheet.html'), 'utf8')).toContain('</html>');
    expect(readdirSync(cwd)).toEqual(['sheet.html']);
  });

  test('a folder is not written over, and a place that is not there is told', async () => {
    const cwd = inFolder({});
    mkdirSync(join(cwd, 'out'));
    expect(await curette.run(['checklist', grafted, '--out', 'out'], { cwd })).toMatchObject({
      status: 2,
      error: 'out is a folder. Name a file to write to.\n',
    });
    const nowhere = await curette.run(['checklist', grafted, '--out', 'no/such/sheet.md'], { cwd });
    expect(nowhere).toMatchObject({
      status: 2,
      error: 'no/such/sheet.md could not be written: there is no such file or folder.\n',
    });
    expect(readdirSync(cwd)).toEqual(['out']);
  });

  test('one of several protocols is named; a misspelt name is answered with the nearest', async () => {
    const cwd = inFolder({ 'two.curette': bare('first_one') + bare('second_one') });
    const chosen = await curette.run(['checklist', 'two.curette', '--protocol', 'second_one'], { cwd });
    expect(chosen.out).toMatch(/^# second\\_one/);
    expect(await curette.run(['checklist', 'two.curette'], { cwd })).toMatchObject({
      status: 2,
      error: 'two.curette declares 2 protocols; name one with --protocol: first_one, second_one.\n',
    });
    expect(await curette.run(['checklist', 'two.curette', '--protocol', 'secnd_one'], { cwd })).toMatchObject({
      status: 2,
      error: 'two.curette declares no protocol "secnd_one". Was "second_one" meant?\n',
    });
  });

  test.each([
    ['a file that is not there', 'nowhere.curette', 'there is no such file'],
    ['a folder', 'folder', 'Name one protocol'],
    ['a file without a protocol', 'empty.curette', 'declares no protocol'],
    ['a file that is not text', 'binary.curette', 'it is not a text file'],
  ])('2 for %s', async (_, path, words) => {
    const cwd = inFolder({ 'empty.curette': '', 'binary.curette': new Uint8Array([0, 1, 2]), 'folder/x': '' });
    const { status, out, error } = await curette.run(['checklist', path], { cwd });
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(error).toContain(words);
  });

  test('a text of the protocol never becomes a command or a path', async () => {
    const cwd = inFolder({ 'a.curette': bare('a').replace('"a"', '"$(touch made) `touch made` ; touch made"') });
    await curette.run(['checklist', 'a.curette', '--format', 'html', '--out', 'a.html'], { cwd });
    expect(existsSync(join(cwd, 'made'))).toBe(false);
    expect(readdirSync(cwd).sort()).toEqual(['a.curette', 'a.html']);
  });
});

describe('curette explain', () => {
  test('the page of a problem', async () => {
    const { status, out } = await curette.run(['explain', 'clock_broken']);
    expect(status).toBe(0);
    expect(out).toMatch(/^# Too soon or too late\n/);
  });

  test("a rule of the library: its sentence, why and source; one of the institution's as well", async () => {
    const { status, out } = await curette.run(['explain', 'throat_pack_in_throat']);
    expect(status).toBe(0);
    expect(out).toContain('# A throat pack lies in the throat');
    expect(out).toContain('**Why:** Anywhere else it guards nothing');
    expect(out).toContain('**Source:** National Patient Safety Agency');
    const house = await curette.run(['explain', 'house_count_before_sign_out'], { cwd: join(root, 'examples') });
    expect(house.out).toContain('# Packs and swabs are counted before sign out');
  });

  test('an unknown code is answered with the nearest', async () => {
    expect(await curette.run(['explain', 'clock_brokn'])).toMatchObject({
      status: 2,
      out: '',
      error: 'There is no problem and no rule called "clock_brokn". Was "clock_broken" meant?\n',
    });
    expect(await curette.run(['explain', 'constructor'])).toMatchObject({ status: 2 });
  });
});

describe('curette itself', () => {
  test.each(['', 'check', 'checklist', 'explain'])('help of "%s"', async (name) => {
    const command = name === '' ? [] : [name];
    const { status, out, error } = await curette.run([...command, '--help']);
    expect({ status, error }).toEqual({ status: 0, error: '' });
    expect(out).toMatchSnapshot();
  });

  test('its version is that of its package', async () => {
    const { version } = JSON.parse(readFileSync(join(root, 'server/package.json'), 'utf8'));
    expect(await curette.run(['--version'])).toEqual({ status: 0, out: `${version}\n`, error: '' });
  });

  test('a reader that leaves early ends it quietly', async () => {
    const { spawn } = await import('node:child_process');
    const cwd = inFolder({});
    writeFileSync(join(cwd, 'a.curette'), 'kind a "a" is matrial { }\n'.repeat(3000));
    const child = spawn(process.execPath, [curette.bundle, 'check'], { cwd, stdio: ['ignore', 'pipe', 'pipe'] });
    child.stdout.once('data', () => child.stdout.destroy());
    let error = '';
    child.stderr.on('data', (chunk: Buffer) => {
      error += chunk.toString();
    });
    const status = await new Promise((resolve) => child.on('close', resolve));
    expect(error).toBe('');
    expect([0, 1]).toContain(status);
  });
});
