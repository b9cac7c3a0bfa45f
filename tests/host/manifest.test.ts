import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import * as z from 'zod';
import { extension } from './run.ts';

const icon = z.object({ light: z.string(), dark: z.string() });
const manifest = z
  .object({
    main: z.string(),
    activationEvents: z.array(z.string()),
    icon: z.string(),
    contributes: z.object({
      languages: z.array(z.object({ configuration: z.string(), icon })),
      grammars: z.array(z.object({ path: z.string() })),
      jsonValidation: z.array(z.object({ url: z.string() })),
    }),
  })
  .parse(JSON.parse(readFileSync(join(extension, 'package.json'), 'utf8')));

const named = [
  manifest.main,
  manifest.icon,
  ...manifest.contributes.languages.flatMap(({ configuration, icon: { light, dark } }) => [configuration, light, dark]),
  ...manifest.contributes.grammars.map(({ path }) => path),
  ...manifest.contributes.jsonValidation.map(({ url }) => url),
];

test.each(named)('%s, which the manifest names, is in the built extension', (path) => {
  expect(existsSync(join(extension, path))).toBe(true);
});

test('only our own files and pages start the extension', () => {
  const foreign = manifest.activationEvents.filter(
    (event) => !/^(onLanguage:curette|(onWebviewPanel|onCommand|onWalkthrough):curette[.#]?\w*)$/.test(event),
  );
  expect(foreign).toEqual([]);
  expect(manifest.activationEvents).toContain('onLanguage:curette');
});
