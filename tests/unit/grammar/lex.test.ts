import { expect, test } from 'vitest';
import { lex, type TokenSource, tokensOf } from '../../../grammar/src/lex.ts';
import { sample } from './samples.ts';

function words(source: TokenSource): string[] {
  while (source.more());
  return source.tokens.map(({ image, startOffset, tokenType }) => `${startOffset} ${tokenType.name} ${image}`);
}

test('a long text gives the same words, read a part at a time, wherever the parts are cut', () => {
  const long = sample.repeat(18).replaceAll('\n  visit', '\n\n \t\r\n\r\n  visit').replaceAll('// outside', '/* x   ');
  for (let shift = 0; shift < 130; shift++) {
    const text = `note "${'x'.repeat(shift)}"\n${long}`;
    expect(text.length).toBeGreaterThan(80_000);
    expect(words(tokensOf(text))).toEqual(words(lex(text)));
  }
});

test('a part is cut at a line end only: a line as long as several parts stays whole', () => {
  const text = `note "${'x '.repeat(60_000)}" // ${'y'.repeat(50_000)}\n\n\n  lay a\n`;
  expect(words(tokensOf(text))).toEqual(words(lex(text)));
});
