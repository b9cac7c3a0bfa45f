import { parse } from '@curette/grammar';
import { libraryFiles } from '@curette/shared';
import { describe, expect, test } from 'vitest';

describe('the shipped library is kept as it was read, and that', () => {
  test.each(libraryFiles.map((file) => [file.path, file] as const))('is what %s reads as now', (_, { text, tree }) => {
    expect(JSON.parse(tree)).toEqual(parse(text));
  });
});
