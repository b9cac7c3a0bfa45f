import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { forEachStatement, parse } from '@curette/grammar';
import { expect, test } from 'vitest';
import { lex } from '../../../grammar/src/lex.ts';
import { sample } from './samples.ts';

/**
 * One thing is damaged, at every place in turn; every statement outside the damaged line must still be in the tree, of the
 * same type and with the same words.
 */
interface Damage {
  readonly what: string;
  /** `[start, end)` of the text is replaced */
  readonly start: number;
  readonly end: number;
  readonly by: string;
}

const root = join(import.meta.dirname, '../../..');

/** So many damages of a sort in a text are enough: they are spread over it evenly. */
const most = 400;

const texts: [name: string, text: string][] = [
  ['the sample', sample],
  ...['examples', 'shared/library'].flatMap((folder) => files(join(root, folder))),
];

function files(folder: string): [string, string][] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.curette'))
    .map((name) => [name, readFileSync(join(folder, name), 'utf8')]);
}

function tokenDamages(text: string, garble: (word: string) => string): Omit<Damage, 'what'>[] {
  return lex(text)
    .tokens.filter(({ image }) => !/^[\r\n]/.test(image) && !image.startsWith('///'))
    .map(({ startOffset, image }) => ({ start: startOffset, end: startOffset + image.length, by: garble(image) }));
}

function lineDamages(text: string, garble: (line: string) => string): Omit<Damage, 'what'>[] {
  const damages: Omit<Damage, 'what'>[] = [];
  let start = 0;
  for (const line of text.split('\n')) {
    if (line.trim() !== '') damages.push({ start, end: start + line.length, by: garble(line) });
    start += line.length + 1;
  }
  return damages;
}

/** A letter lost from the middle of a word; anything else becomes a strange sign. */
function slip(word: string): string {
  return /^\p{L}.../u.test(word) ? word.slice(0, word.length >> 1) + word.slice((word.length >> 1) + 1) : '¤';
}

function damages(text: string): Damage[] {
  const sorts: [string, Omit<Damage, 'what'>[]][] = [
    ['a word or sign deleted', tokenDamages(text, () => '')],
    ['a word or sign garbled', tokenDamages(text, slip)],
    ['a line deleted', lineDamages(text, () => '')],
    ['a line garbled', lineDamages(text, (line) => line.replace(/\S+/g, '¤¤'))],
    ['a line cut in half', lineDamages(text, (line) => line.slice(0, line.length >> 1))],
  ];
  return sorts.flatMap(([what, all]) => {
    const step = Math.max(1, all.length / most);
    const spread = Array.from({ length: Math.min(all.length, most) }, (_, at) => all[Math.floor(at * step)]);
    return spread.flatMap((damage) => (damage === undefined ? [] : [{ what, ...damage }]));
  });
}

/** `type: words` of each statement, with the lines its head lies on. */
function statements(text: string): { key: string; start: number; end: number }[] {
  const found: { key: string; start: number; end: number }[] = [];
  forEachStatement(parse(text), (statement, from) => {
    const start = from + statement.head.start;
    const end = from + statement.head.end;
    found.push({ key: `${statement.type}: ${text.slice(start, end)}`, start, end });
  });
  return found;
}

/** What is there and what should be, outside the damaged line. */
function survivors(text: string, whole: ReturnType<typeof statements>, damage: Damage): { kept: number; all: number } {
  const lineStart = text.lastIndexOf('\n', damage.start - 1) + 1;
  const next = text.indexOf('\n', damage.end);
  const lineEnd = next < 0 ? text.length : next;
  const left = new Map<string, number>();
  for (const { key } of statements(text.slice(0, damage.start) + damage.by + text.slice(damage.end))) {
    left.set(key, (left.get(key) ?? 0) + 1);
  }
  const expected = whole.filter(({ start, end }) => end <= lineStart || start >= lineEnd);
  let kept = 0;
  for (const { key } of expected) {
    const count = left.get(key) ?? 0;
    if (count > 0) kept++;
    left.set(key, count - 1);
  }
  return { kept, all: expected.length };
}

test.each(texts)('in %s, what stands outside a damaged line survives', (name, text) => {
  const whole = statements(text);
  const sums = new Map<string, { kept: number; all: number; worst: number }>();
  for (const damage of damages(text)) {
    const { kept, all } = survivors(text, whole, damage);
    const sum = sums.get(damage.what) ?? { kept: 0, all: 0, worst: 1 };
    sums.set(damage.what, {
      kept: sum.kept + kept,
      all: sum.all + all,
      worst: Math.min(sum.worst, all === 0 ? 1 : kept / all),
    });
  }
  const percent = (part: number): string => `${(100 * part).toFixed(2)} %`;
  const figures = [...sums].map(
    ([what, { kept, all, worst }]) => `${what} ${percent(kept / all)} (at worst ${percent(worst)})`,
  );
  console.log(`Kept outside the damaged line, ${name}: ${figures.join('; ')}`);
  for (const [what, { kept, all, worst }] of sums) {
    expect(kept / all, what).toBeGreaterThan(0.99);
    expect(worst, `${what}, the worst place`).toBeGreaterThan(0.9);
  }
  expect(sums.size).toBe(5);
});
