/** Cases on the command: checked with everything else, and each with a sheet and a timeline of its own. */
import { join } from 'node:path';
import { timeline } from '@curette/shared';
import { afterAll, beforeAll, describe, expect, onTestFinished, test } from 'vitest';
import { bundled, type Command, folderWith, root } from './curette.ts';

let curette: Command;
beforeAll(async () => {
  curette = await bundled();
});
afterAll(() => curette.remove());

const cases = join(root, 'examples/cases/grafted_sockets.curette');

const PROTOCOL = `finding wall "Wall" { intact, lost }
kind hollow "hollow" is place { depth : length within 1 mm..30 mm source common_practice }
action fill (hollow h) to (length d) { takes 5 min }
rule not_too_deep "Not filled deeper than 11 mm" {
  whenever fill (hollow h) to (length d)
  expect   h.depth <= 11 mm
  severity error
  why      "It does not set further down"
  source   common_practice
}
protocol fill_it "Fill a hollow" {
  version 1.0.0
  status draft
  owner "W"
  given { patient : patient, site : hollow { depth 9..13 mm } }
  exclude when patient has acute_infection
  caution when patient has smoking
  caution when patient has diabetes
  visit surgery "Surgery" {
    decide wall "Probe" {
      option intact { fill site to 5 mm }
      option lost { stop "Refer" }
    }
  }
  wait 7..10 d
  visit later "Later" { note "Look" }
}
`;

function inFolder(files: Readonly<Record<string, string>>): string {
  const [folder, remove] = folderWith(files);
  onTestFinished(remove);
  return folder;
}

const inFiles = (text: string) =>
  inFolder({
    'curette.json': '{}',
    'protocols/fill.curette': PROTOCOL,
    'cases/one.curette': `use ../protocols/fill\n${text}\n`,
  });

describe('curette check', () => {
  test('checks cases, and points to the line of the protocol', async () => {
    const cwd = inFiles('case deep of fill_it { site { depth 12 mm } }');
    const { status, out } = await curette.run(['check', 'cases'], { cwd });
    expect(status).toBe(1);
    expect(out).toMatch(/^error in cases\/one\.curette:2:\d+$/m);
    expect(out).toContain('the line of the protocol');
    const sound = inFiles('case shallow of fill_it { site { depth 10 mm } }');
    expect(await curette.run(['check', 'cases'], { cwd: sound })).toMatchObject({ status: 0 });
  });

  test('what could lead to a person fails the check', async () => {
    const cwd = inFiles('case one "Mrs Weber" of fill_it { }');
    const { status, out } = await curette.run(['check', 'cases'], { cwd });
    expect(status).toBe(1);
    expect(out).toContain('looks_like_identifier');
  });
});

describe('--case', () => {
  test('the sheet has exact values, the options that remain, and dates; its title names the case', async () => {
    const cwd = inFiles(
      'case shallow "A shallow one" of fill_it {\n  start 2027-03-01\n  site { depth 10 mm }\n  patient { mass 70 kg, has smoking }\n  wall intact\n}',
    );
    const { status, out, error } = await curette.run(['checklist', 'cases/one.curette', '--case', 'shallow'], { cwd });
    expect({ status, error }).toEqual({ status: 0, error: '' });
    expect(out).toMatch(/^# Fill a hollow: A shallow one\n/);
    expect(out).toContain('depth 10 mm');
    expect(out).toContain('mass 70 kg, has smoking');
    expect(out).toContain('Date: **2027-03-08 to 2027-03-11, 4 open days**');
    expect(out).toContain('Patient has smoking');
    expect(out).not.toContain('has diabetes');
    expect(out).not.toContain('Refer');
    const html = await curette.run(['checklist', 'cases/one.curette', '--case', 'shallow', '--format', 'html'], {
      cwd,
    });
    expect(html.out).toContain('<b>2027-03-08 to 2027-03-11, 4 open days</b>');
  });

  test('a case that stops early has no later visit', async () => {
    const cwd = inFiles('case gone of fill_it { wall lost }');
    const { out } = await curette.run(['checklist', 'cases/one.curette', '--case', 'gone'], { cwd });
    expect(out).toContain('Refer');
    expect(out).not.toContain('Later');
    expect(out).not.toContain('Then wait');
  });

  test('fit is what the case is: unfit where its protocol is only for others, fit where only others are unsafe', async () => {
    const cwd = inFiles(
      'case ill of fill_it { site { depth 10 mm }, has acute_infection }\ncase well of fill_it { site { depth 10 mm } }',
    );
    const ill = await curette.run(['checklist', 'cases/one.curette', '--case', 'ill'], { cwd });
    expect(ill.error).toBe('ill is not fit for use: the checker found an error.\n');
    expect(ill.out).toContain('Excluded by the protocol');
    const well = await curette.run(['checklist', 'cases/one.curette', '--case', 'well'], { cwd });
    expect(well.error).toBe('');
    expect(well.out).not.toMatch(/not fit for use|can go wrong/i);
    // For everybody it is unfit: of some hollows it fills too deep a one.
    const all = await curette.run(['checklist', 'protocols/fill.curette'], { cwd });
    expect(all.error).toContain('fill_it is not fit for use');
    expect(all.out).not.toContain('Excluded by the protocol');
  });

  test('the timeline is of the case, from the day it begins; another day can be given', async () => {
    const cwd = inFiles('case one of fill_it {\n  start 2027-03-01\n  wall intact\n  site { depth 10 mm }\n}');
    const run = (...more: string[]) =>
      curette.run(['timeline', 'cases/one.curette', '--case', 'one', '--format', 'json', ...more], { cwd });
    const own = timeline.parse(JSON.parse((await run()).out));
    expect(own).toMatchObject({ name: 'one', title: 'Fill a hollow: One', first: '2027-03-01', fit: true });
    expect(own.course.map((part) => (part.type === 'visit' ? part.dates?.earliest : part.type))).toEqual([
      '2027-03-01',
      'gap',
      '2027-03-08',
    ]);
    const other = timeline.parse(JSON.parse((await run('--first', '2027-04-01')).out));
    expect(other.first).toBe('2027-04-01');
  });

  test('a case that there is none of is told, with the nearest name', async () => {
    const cwd = inFiles('case shallow of fill_it { }\ncase deep of fill_it { }');
    for (const command of ['checklist', 'timeline']) {
      expect(await curette.run([command, 'cases/one.curette', '--case', 'shalow'], { cwd })).toEqual({
        status: 2,
        out: '',
        error: 'cases/one.curette declares no case "shalow". Was "shallow" meant?\n',
      });
      expect(await curette.run([command, 'cases/one.curette', '--case', 'x'], { cwd })).toMatchObject({
        status: 2,
        error: 'cases/one.curette declares no case "x". It declares shallow, deep.\n',
      });
      expect(await curette.run([command, 'protocols/fill.curette', '--case', 'x'], { cwd })).toMatchObject({
        status: 2,
        error: 'protocols/fill.curette declares no case "x". It declares none.\n',
      });
    }
  });

  test('a case of a protocol that is nowhere is told, and so is one asked for with a protocol', async () => {
    const cwd = inFiles('case one of other { }\ncase two of fill_it { }');
    expect(await curette.run(['checklist', 'cases/one.curette', '--case', 'one'], { cwd })).toMatchObject({
      status: 2,
      error:
        'The protocol "other" that the case "one" is of is not declared in cases/one.curette, nor in a file it uses.\n',
    });
    expect(
      await curette.run(['checklist', 'cases/one.curette', '--case', 'two', '--protocol', 'fill_it'], { cwd }),
    ).toMatchObject({ status: 2, error: 'A case says itself which protocol it is of: leave --protocol out.\n' });
  });

  test("the demo hospital's cases are fit for use", async () => {
    for (const name of ['upper_premolar', 'lost_wall']) {
      const { status, error } = await curette.run(['checklist', cases, '--case', name]);
      expect({ status, error }).toEqual({ status: 0, error: '' });
    }
    expect(await curette.run(['check', cases, '--fail-on', 'warning'])).toMatchObject({ status: 0 });
  });
});
