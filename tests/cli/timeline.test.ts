import { mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { timeline } from '@curette/shared';
import { afterAll, beforeAll, describe, expect, onTestFinished, test } from 'vitest';
import { bundled, type Command, folderWith, root } from './curette.ts';

let curette: Command;
beforeAll(async () => {
  curette = await bundled();
});
afterAll(() => curette.remove());

const grafted = join(root, 'examples/protocols/grafted_socket.curette');
const draft = join(root, 'examples/drafts/grafted_socket_draft.curette');
const two = `action cut (place p) { takes 2..4 min }
protocol first_one "First" { given { site : place } visit v "V" { cut site } }
protocol second_one "Second" {
  given { site : place }
  visit v "V" { cut site }
  wait 7..10 d
  visit w "W" { cut site }
}
`;

function inFolder(files: Readonly<Record<string, string | Uint8Array>>): string {
  const [folder, remove] = folderWith(files);
  onTestFinished(remove);
  return folder;
}

describe('curette timeline', () => {
  test('prints text, one SVG image, or data of its published shape', async () => {
    const text = await curette.run(['timeline', grafted]);
    expect(text).toMatchObject({ status: 0, error: '' });
    expect(text.out).toMatch(/^Grafted extraction socket without a flap\n/);
    expect(text.out).toContain('The chair is occupied for 37–104 min');
    const svg = await curette.run(['timeline', grafted, '--format', 'svg']);
    expect(svg).toMatchObject({ status: 0, error: '' });
    expect(svg.out).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg"/);
    expect(svg.out.trimEnd()).toMatch(/<\/svg>$/);
    const json = await curette.run(['timeline', grafted, '--format', 'json']);
    expect(json).toMatchObject({ status: 0, error: '' });
    const data = timeline.parse(JSON.parse(json.out));
    expect(data).toMatchObject({ name: 'grafted_socket', fit: true, first: null });
  });

  test('one with errors is shown, and said to be unfit', async () => {
    const { status, out, error } = await curette.run(['timeline', draft]);
    expect(status).toBe(0);
    expect(out).toContain('NOT FIT FOR USE');
    expect(error).toMatch(/^grafted_socket_draft is not fit for use: the checker found \d+ errors\.\n$/);
  });

  test('writes a file whole, without colours, and leaves nothing else behind', async () => {
    const cwd = inFolder({ 'plan.txt': 'old' });
    const made = await curette.run(['timeline', grafted, '--out', 'plan.txt'], { cwd });
    expect(made).toEqual({ status: 0, out: '', error: '' });
    expect(readFileSync(join(cwd, 'plan.txt'), 'utf8')).toMatch(/^Grafted extraction socket/);
    expect(readFileSync(join(cwd, 'plan.txt'), 'utf8')).not.toContain('\u001b');
    expect(readdirSync(cwd)).toEqual(['plan.txt']);
  });

  test('a folder is not written over, and a place that is not there is told', async () => {
    const cwd = inFolder({});
    mkdirSync(join(cwd, 'out'));
    expect(await curette.run(['timeline', grafted, '--out', 'out'], { cwd })).toMatchObject({
      status: 2,
      error: 'out is a folder. Name a file to write to.\n',
    });
    expect(await curette.run(['timeline', grafted, '--out', 'no/such/plan.svg'], { cwd })).toMatchObject({
      status: 2,
      error: 'no/such/plan.svg could not be written: there is no such file or folder.\n',
    });
    expect(readdirSync(cwd)).toEqual(['out']);
  });

  test('one of several protocols is named; a misspelt name is answered with the nearest', async () => {
    const cwd = inFolder({ 'two.curette': two });
    const chosen = await curette.run(['timeline', 'two.curette', '--protocol', 'second_one'], { cwd });
    expect(chosen.out).toMatch(/^Second\n/);
    expect(await curette.run(['timeline', 'two.curette'], { cwd })).toMatchObject({
      status: 2,
      error: 'two.curette declares 2 protocols; name one with --protocol: first_one, second_one.\n',
    });
    expect(await curette.run(['timeline', 'two.curette', '--protocol', 'secnd_one'], { cwd })).toMatchObject({
      status: 2,
      error: 'two.curette declares no protocol "secnd_one". Was "second_one" meant?\n',
    });
  });

  test('given the first visit, shows between which open days each one can be', async () => {
    const settings = '{ "closed": { "weekdays": ["saturday", "sunday"] } }';
    const cwd = inFolder({ 'two.curette': two, 'curette.json': settings });
    const call = ['timeline', 'two.curette', '--protocol', 'second_one', '--first', '2027-02-01'];
    const { status, out } = await curette.run(call, { cwd });
    expect(status).toBe(0);
    expect(out).toContain('Date: 2027-02-01\n');
    // 7 to 10 days after a Monday: Monday to Thursday of the week after.
    expect(out).toContain('Date: 2027-02-08 to 2027-02-11, 4 open days\n');
    const json = await curette.run([...call, '--format', 'json'], { cwd });
    const visits = timeline.parse(JSON.parse(json.out)).course.filter((part) => part.type === 'visit');
    expect(visits.map((visit) => visit.dates)).toEqual([
      { earliest: '2027-02-01', latest: '2027-02-01', days: 1, note: null },
      { earliest: '2027-02-08', latest: '2027-02-11', days: 4, note: null },
    ]);
    const closed = await curette.run([...call.slice(0, -1), '2027-02-06'], { cwd });
    expect(closed.out).toContain('Date: 2027-02-06, a closed day\n');
  });

  test.each(['2027-02-30', '1.2.2027', 'monday', ''])('2 for a first day "%s"', async (day) => {
    const { status, out, error } = await curette.run(['timeline', grafted, '--first', day]);
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(error).toBe(`"${day}" is no day of the calendar. Write it as 2027-01-31.\n`);
  });

  test.each([
    ['a file that is not there', 'nowhere.curette', 'there is no such file'],
    ['a folder', 'folder', 'Name one protocol'],
    ['a file without a protocol', 'empty.curette', 'declares no protocol'],
    ['a file that is not text', 'binary.curette', 'it is not a text file'],
  ])('2 for %s', async (_, path, words) => {
    const cwd = inFolder({ 'empty.curette': '', 'binary.curette': new Uint8Array([0, 1, 2]), 'folder/x': '' });
    const { status, out, error } = await curette.run(['timeline', path], { cwd });
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(error).toContain(words);
  });

  test('its help', async () => {
    const { status, out, error } = await curette.run(['timeline', '--help']);
    expect({ status, error }).toEqual({ status: 0, error: '' });
    expect(out).toMatchSnapshot();
  });
});
