/** The settings of a folder on the command line. */
import { problemsOutput } from '@curette/shared';
import { afterAll, beforeAll, expect, onTestFinished, test } from 'vitest';
import { bundled, type Command, folderWith } from './curette.ts';

let curette: Command;
beforeAll(async () => {
  curette = await bundled();
});
afterAll(() => curette.remove());

const faulty = 'kind cloth "cloth" is matrial { }\n';

function inFolder(files: Readonly<Record<string, string | Uint8Array>>): string {
  const [folder, remove] = folderWith(files);
  onTestFinished(remove);
  return folder;
}

test('what is wrong in them is a failure, and the protocols are checked all the same', async () => {
  const cwd = inFolder({ 'curette.json': '{ "closed": { "weekdays": ["sonnday"] } }', 'a/a.curette': faulty });
  const { status, out } = await curette.run(['check', 'a'], { cwd });
  expect(status).toBe(1);
  expect(out).toContain('error in curette.json:1:28');
  expect(out).toContain('"sonnday" is no weekday');
  expect(out).toContain('error in a/a.curette:1:23');
  expect(out).toContain('2 files checked');
});

test('it is told once, however many protocols they count for', async () => {
  const cwd = inFolder({ 'curette.json': '[]', 'a.curette': faulty, 'b/b.curette': faulty });
  const { out } = await curette.run(['check', '.', 'b', '--format', 'json'], { cwd });
  const { problems, files } = problemsOutput.parse(JSON.parse(out));
  expect(problems.filter(({ code }) => code === 'bad_settings')).toHaveLength(1);
  expect(files.map(({ path }) => path)).toEqual(['curette.json', 'a.curette', 'b/b.curette']);
});

test('sound ones are not spoken of', async () => {
  const cwd = inFolder({
    'curette.json': '{ "closed": { "weekdays": ["sunday"] } }',
    'a.curette': 'kind cloth "cloth" is material { }\n',
  });
  expect(await curette.run(['check'], { cwd })).toMatchObject({
    status: 0,
    out: '1 file checked, no problem found.\n',
  });
});

test.each([
  ['bytes that are no text', new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0, 255]), 'not a text file', 2],
  ['nothing at all', '', 'the file is empty', 1],
  ['more than settings can be', `{}${' '.repeat(1_000_001)}`, 'far larger than settings can be', 1],
])('%s', async (_, content, words, ends) => {
  const cwd = inFolder({ 'curette.json': content, 'a.curette': faulty });
  const { status, out } = await curette.run(['check'], { cwd });
  expect(status).toBe(ends);
  expect(out).toContain(words);
  expect(out).toContain('error in a.curette:1:23');
});
