import { previewRequest } from '@curette/shared';
import { afterEach, beforeEach, expect, test } from 'vitest';
import type * as z from 'zod';
import { type Server, startServer } from './server.ts';

let server: Server;
beforeEach(async () => {
  server = await startServer();
});
afterEach(async () => {
  expect(await server.stop()).toBe(0);
  expect(server.said()).toBe('');
});

async function preview(asked: z.input<typeof previewRequest.params>) {
  return previewRequest.result.parse(await server.connection.sendRequest(previewRequest.method, asked));
}

test('the page follows the text, and the change is told once to whoever looks', async () => {
  const uri = server.uri('a.curette');
  const changed: string[] = [];
  server.connection.onNotification('curette/previewChanged', (told: { uri: string }) => void changed.push(told.uri));
  server.open(uri, 'note "none yet"\n');
  const before = await preview({ uri, view: 'checklist' });
  expect(before).toMatchObject({ protocol: null, version: 1, html: expect.stringContaining('no protocol') });
  server.change(uri, 2, [{ text: 'protocol p "A <b>bold</b> plan" {\n}\n' }]);
  await server.told(uri, ({ version }) => version === 2);
  const after = await preview({ uri, view: 'checklist' });
  expect([after.protocol, after.title, after.version]).toEqual(['p', 'A <b>bold</b> plan', 2]);
  expect(after.html).toContain('A &lt;b&gt;bold&lt;/b&gt; plan');
  expect(changed).toEqual([uri]);
});

test('names the documents whose lines its parts stand on', async () => {
  const house = server.uri('house.curette');
  const uri = server.uri('a.curette');
  server.open(house, 'kind k is material\n');
  server.open(uri, 'use house\nprotocol p "P" {\n  materials { a : k }\n}\n');
  const { declaredIn, files } = await preview({ uri, view: 'problems' });
  expect(declaredIn).toBe(uri);
  expect(files).toMatchObject({ 'a.curette': uri, 'house.curette': house });
});

test('cases of a protocol are found in every file of the workspace', async () => {
  const uri = server.uri('plans/a.curette');
  const cases = server.uri('cases/b.curette');
  server.write('plans/a.curette', 'protocol p "P" {\n}\nprotocol q "Q" {\n}\n');
  server.write('cases/b.curette', 'use ../plans/a\ncase tall "Tall" of p {\n}\ncase low of q {\n}\n');
  server.open(uri, 'protocol p "P" {\n}\nprotocol q "Q" {\n}\n');
  await server.told(uri);
  expect(await server.connection.sendRequest('curette/cases', { uri, protocol: 'p' })).toEqual({
    cases: [{ uri: cases, name: 'tall', title: 'Tall' }],
  });
});

test('a view that there is not is refused', async () => {
  await expect(server.connection.sendRequest('curette/preview', { uri: 'file:///a', view: 'map' })).rejects.toThrow(
    'view',
  );
});
