import { dueOutput } from '@curette/shared';
import { afterAll, beforeAll, describe, expect, onTestFinished, test } from 'vitest';
import { bundled, type Command, folderWith } from './curette.ts';

let curette: Command;
beforeAll(async () => {
  curette = await bundled();
});
afterAll(() => curette.remove());

function plan(name: string, status: string, dates: string): string {
  return `protocol ${name} "Plan ${name}" {\n  version 1.0.0\n  status ${status}\n  owner "House"\n  review every 12 mo\n${dates}}\n`;
}

const folder = {
  'late.curette': plan('late', 'approved', '  approved 2024-01-31 by "House"\n  reviewed 2025-01-31\n'),
  'soon.curette': plan('soon', 'in_review', '  reviewed 2025-05-01\n'),
  'far.curette': plan('far', 'approved', '  reviewed 2026-03-01\n'),
  'draft.curette': plan('draft', 'draft', '  reviewed 2020-01-01\n'),
  'undated.curette': plan('undated', 'in_review', ''),
};

function here(files: Readonly<Record<string, string>> = folder): string {
  const [cwd, remove] = folderWith(files);
  onTestFinished(remove);
  return cwd;
}

describe('curette due', () => {
  test('lists what is overdue, then what falls due within 60 days, and ends with 1', async () => {
    const { status, out, error } = await curette.run(['due', '--on', '2026-03-10'], { cwd: here() });
    expect({ status, error }).toEqual({ status: 1, error: '' });
    expect(out).toBe(`Overdue since 2026-01-31  Plan late, version 1.0.0
  late.curette; reviewed 2025-01-31; House
Due on 2026-05-01  Plan soon, version 1.0.0
  soon.curette; reviewed 2025-05-01; House

No day to count from: Plan undated (undated.curette)
`);
  });

  test('a protocol is not overdue on its last day, and further ahead is seen when it is asked for', async () => {
    const cwd = here();
    const on = await curette.run(['due', '--on', '2026-01-31', '--within', '0', '--format', 'json'], { cwd });
    expect(on.status).toBe(0);
    const list = dueOutput.parse(JSON.parse(on.out));
    expect(list.protocols).toMatchObject([{ name: 'late', due: '2026-01-31', overdue: false, counted: 'reviewed' }]);
    const ahead = await curette.run(['due', '--on', '2026-01-31', '--within', '500', '--format', 'json'], { cwd });
    expect(dueOutput.parse(JSON.parse(ahead.out)).protocols.map(({ name }) => name)).toEqual(['late', 'soon', 'far']);
  });

  test('says so when there is nothing, and ends with 0', async () => {
    const cwd = here({ 'far.curette': folder['far.curette'] });
    expect(await curette.run(['due', '--on', '2026-03-10'], { cwd })).toEqual({
      status: 0,
      out: 'No review is due on 2026-03-10.\n',
      error: '',
    });
  });

  test.each([
    [['--on', '2026-02-30'], '"2026-02-30" is no day of the calendar. Write it as 2027-01-31.\n'],
    [['--within', 'soon'], '"soon" is no number of days. Write it as 60.\n'],
  ])('refuses %j', async (args, error) => {
    expect(await curette.run(['due', ...args], { cwd: here() })).toEqual({ status: 2, out: '', error });
  });
});
