import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { tray } from '@curette/shared';
import { afterAll, beforeAll, describe, expect, onTestFinished, test } from 'vitest';
import { bundled, type Command, folderWith, root } from './curette.ts';

let curette: Command;
beforeAll(async () => {
  curette = await bundled();
});
afterAll(() => curette.remove());

const grafted = join(root, 'examples/protocols/grafted_socket.curette');
const cases = join(root, 'examples/cases/grafted_sockets.curette');

describe('curette tray', () => {
  test('lists for each visit what its steps need, in their order, as data too', async () => {
    const { status, out, error } = await curette.run(['tray', grafted, '--format', 'json']);
    expect({ status, error }).toEqual({ status: 0, error: '' });
    const { visits } = tray.parse(JSON.parse(out));
    const surgery = visits.find(({ name }) => name === 'surgery');
    expect(surgery?.materials.slice(0, 3).map(({ name }) => name)).toEqual(['Mouthwash', 'Numbing', 'Pack']);
    expect(surgery?.instruments.find(({ name }) => name === 'Root tip pick')).toMatchObject({
      only: ['root is broken'],
    });
  });

  test('writes Markdown to read and one page to print', async () => {
    const [cwd, remove] = folderWith({ 'a.txt': '' });
    onTestFinished(remove);
    expect((await curette.run(['tray', grafted])).out).toMatch(/^# Tray: Grafted extraction socket/);
    await curette.run(['tray', grafted, '--format', 'html', '--out', 'tray.html'], { cwd });
    expect(readFileSync(join(cwd, 'tray.html'), 'utf8')).toContain('<p class="kicker">Tray</p>');
  });

  test('of a case lists what remains: nothing for an option that the case does not take', async () => {
    const { out } = await curette.run(['tray', cases, '--case', 'lost_wall', '--format', 'json']);
    const { visits } = tray.parse(JSON.parse(out));
    expect(visits).toHaveLength(1);
    expect(JSON.stringify(visits)).not.toContain('Glue');
  });
});
