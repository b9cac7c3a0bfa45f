/** Texts in the language from all over the repository, what a text means and what its comments are: for tests of its layout. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { forEachStatement, parse, type SyntaxTree, tokenize } from '@curette/grammar';

const root = join(import.meta.dirname, '../..');

/** The shipped library and the examples: path and text. */
export function shippedTexts(): { path: string; text: string }[] {
  return ['shared/library', 'examples'].flatMap((folder) =>
    readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.curette'))
      .sort()
      .map((name) => ({ path: `${folder}/${name}`, text: readFileSync(join(root, folder, name), 'utf8') })),
  );
}

/** Every text in backquotes in the tests that reads as the language, without a fault. */
export function testTexts(): string[] {
  const files = readdirSync(join(root, 'tests'), { recursive: true, encoding: 'utf8' }).filter(
    (name) => name.endsWith('.ts') && !/(^|\/)(node_modules|dist)\//.test(name),
  );
  const texts = files.flatMap((name) =>
    [...readFileSync(join(root, 'tests', name), 'utf8').matchAll(/`([^`$\\]*)`/g)].map((match) => match[1] ?? ''),
  );
  return [...new Set(texts)].filter((text) => isClean(parse(text)) && parse(text).body.items.length > 0).sort();
}

export function isClean(tree: SyntaxTree): boolean {
  let clean = tree.flaws.length === 0;
  forEachStatement(tree, ({ flaws }) => {
    if (flaws.length > 0) clean = false;
  });
  return clean;
}

const places = new Set(['id', 'nextId', 'start', 'end', 'length', 'head', 'open', 'close', 'offsets']);

/** What a text says: its tree without places. A unit counts as what `spell` makes of it. */
export function model(text: string, spell: (unit: string) => string = (unit) => unit): string {
  return JSON.stringify(parse(text), (key, value) => {
    if (places.has(key)) return undefined;
    if (key === 'unit' && value !== undefined) return spell(value.text.replace(/\s/g, ''));
    return value ?? null;
  });
}

/** Each comment, in order, with the words before and behind it; braces and commas may change sides. */
export function comments(text: string): string[] {
  const signs = tokenize(text).map(({ kind, start, end }) => ({ kind, image: text.slice(start, end) }));
  const words = signs.filter(({ image }) => image !== '{' && image !== ',');
  const isComment = (kind: string | undefined) => kind === 'comment' || kind === 'doc';
  const near = (from: number, step: number): string => {
    let at = from + step;
    while (isComment(words[at]?.kind)) at += step;
    return words[at]?.image.replace(/\s+/g, ' ') ?? '';
  };
  return words.flatMap(({ kind, image }, at) => {
    if (!isComment(kind)) return [];
    const plain = image.trimEnd().replace(/^\/\/\/(?=[^\s/])/, '/// ');
    return [`${near(at, -1)} | ${plain} | ${near(at, 1)}`];
  });
}
