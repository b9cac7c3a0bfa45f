import { layOut } from '@curette/server';
import { expect, test } from 'vitest';
import { shippedTexts } from '../support/layouts.ts';

test.each(shippedTexts().map(({ path, text }) => [path, text]))(
  '%s has the layout of the language (npx curette format shared/library examples)',
  (_, text) => {
    expect(layOut(text).text).toBe(text);
  },
);
