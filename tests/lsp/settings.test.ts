/** The settings of a folder as the server reads them: from disk, again when they change, and told although nobody has them open. */
import { afterEach, beforeEach, expect, test } from 'vitest';
import { type Server, startServer } from './server.ts';

const protocol = `protocol p "P" {
  version 1.0.0
  status  draft
  owner   "Unit"
  visit first "First" {
    note "Seen"
  }
  wait 2 d
  visit second "Second" {
    note "Seen again"
  }
}
`;
const closed = (...weekdays: string[]) => JSON.stringify({ closed: { weekdays } });

let server: Server;
beforeEach(async () => {
  server = await startServer();
});
afterEach(async () => {
  expect(await server.stop()).toBe(0);
  expect(server.said()).toBe('');
});

test('closed days count for an open protocol, and a change of them is seen', async () => {
  server.write('curette.json', closed('saturday', 'sunday'));
  const uri = server.uri('protocols/a.curette');
  server.open(uri, protocol);
  expect((await server.told(uri)).map(({ code }) => code)).toEqual(['no_open_day']);
  server.write('curette.json', closed());
  server.touched('curette.json');
  expect(await server.told(uri)).toEqual([]);
  server.write('curette.json', closed('sunday'));
  server.touched('curette.json');
  expect((await server.told(uri)).map(({ code }) => code)).toEqual(['no_open_day']);
  server.write('curette.json', undefined);
  server.touched('curette.json');
  expect(await server.told(uri)).toEqual([]);
});

test('what is wrong in them is told on their file, until it is mended', async () => {
  server.write('curette.json', '{ "closed": { "weekdays": ["sonnday"] } }');
  const settings = server.uri('curette.json');
  const uri = server.uri('a.curette');
  server.open(uri, protocol);
  const [problem, ...others] = await server.told(settings);
  expect(others).toEqual([]);
  expect(problem).toMatchObject({
    code: 'bad_settings',
    severity: 1,
    range: { start: { line: 0, character: 27 }, end: { line: 0, character: 36 } },
  });
  server.write('curette.json', closed('sunday'));
  server.touched('curette.json');
  expect(await server.told(settings)).toEqual([]);
  server.write('curette.json', 'none');
  server.touched('curette.json');
  expect((await server.told(settings)).length).toBeGreaterThan(0);
});
